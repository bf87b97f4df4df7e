#include "core/analysis/analyser.hpp"
#include "tests/fuzz/sensible.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <cstring>
#include <memory>
#include <numbers>
#include <span>
#include <vector>

using namespace quillbench;

namespace {

constexpr std::array<double, 4> kFuzzRates{8000.0, 8000.0, 11025.0, 24000.0};

/// An analyser with what it has been through.
struct Subject {
    explicit Subject(double hz) : rate(hz), analyser(rate, ClockCalibration{}) {}

    SampleRate rate;
    Analyser analyser;
    AnalysisSnapshot last;
    FrameIndex next;
    bool discontinuity = false;
};

/// Making an analyser takes longer than most inputs: one input in sixteen gets a new one, the others go on with the one
/// that is there, across a gap.
Subject& subjectFor(std::uint8_t choice) {
    static std::array<std::unique_ptr<Subject>, kFuzzRates.size()> subjects;
    std::unique_ptr<Subject>& subject = subjects[choice % subjects.size()];
    if (!subject || choice >= 240) {
        subject = std::make_unique<Subject>(kFuzzRates[choice % kFuzzRates.size()]);
    }
    subject->discontinuity = true;
    return *subject;
}

/// Reads the input as a list of things that may befall an analyser.
class Play {
public:
    Play(const std::uint8_t* data, std::size_t size)
        : left_(data, size),
          subject_(subjectFor(byte())) {
        retarget(byte());
    }

    void run() {
        while (!left_.empty() && frames_ < kMostFrames) {
            step(byte());
        }
    }

private:
    static constexpr std::size_t kMostFrames = 12000;

    std::uint8_t byte() {
        if (left_.empty()) {
            return 0;
        }
        const std::uint8_t first = left_.front();
        left_ = left_.subspan(1);
        return first;
    }

    void step(std::uint8_t what) {
        const std::size_t count = std::size_t{16} * byte() + what % 3;
        switch (what % 9) {
        case 0:
            return push(std::vector<float>(count));
        case 1:
            return push(std::vector<float>(count, (static_cast<float>(byte()) - 128.0F) / 64.0F));
        case 2:
            return push(noise(count, static_cast<float>(byte()) / 255.0F));
        case 3:
        case 4:
            return push(pluck(count, byte()));
        case 5:
            return push(square(count, 1U + byte()));
        case 6:
            return push(bits(count));
        case 7:
            return lose(byte());
        default:
            return retarget(byte());
        }
    }

    std::vector<float> noise(std::size_t count, float level) {
        std::vector<float> sound(count);
        for (float& sample : sound) {
            seed_ = seed_ * 1664525U + 1013904223U;
            sample = level * (static_cast<float>(seed_ >> 8U) / 8388608.0F - 1.0F);
        }
        return sound;
    }

    /// A string of eight partials near one of the target's.
    [[nodiscard]] std::vector<float> pluck(std::size_t count, std::uint8_t which) const {
        const double hz = 55.0 * std::exp2(static_cast<double>(which % 48) / 12.0);
        std::vector<float> sound(count);
        for (std::size_t i = 0; i < count; ++i) {
            const double t = static_cast<double>(i) / subject_.rate.hz();
            double value = 0.0;
            for (int n = 1; n <= 8; ++n) {
                value +=
                    std::exp(-(1.0 + n) * t) / n * std::sin(2.0 * std::numbers::pi * n * hz * t);
            }
            sound[i] = static_cast<float>(0.2 * value);
        }
        return sound;
    }

    static std::vector<float> square(std::size_t count, std::size_t half) {
        std::vector<float> sound(count);
        for (std::size_t i = 0; i < count; ++i) {
            sound[i] = i / half % 2 == 0 ? 1.0F : -1.0F;
        }
        return sound;
    }

    /// Any float that can be sound; the engine lets no others through.
    std::vector<float> bits(std::size_t count) {
        std::vector<float> sound(count % 64);
        for (float& sample : sound) {
            std::array<std::uint8_t, sizeof(float)> raw{byte(), byte(), byte(), byte()};
            std::memcpy(&sample, raw.data(), sizeof sample);
            sample = isSound(sample) ? sample : 0.0F;
        }
        return sound;
    }

    void lose(std::uint8_t how) {
        subject_.discontinuity = how % 4 == 0;
        const auto frames = static_cast<std::int64_t>(how) << (how % 5 * 8U);
        subject_.next = subject_.next + FrameCount(how % 3 == 0 ? -frames : frames);
    }

    void retarget(std::uint8_t how) {
        if (how % 8 == 0) {
            subject_.analyser.setTarget(nullptr);
            return;
        }
        auto target = std::make_shared<AnalysisTarget>();
        const std::size_t strings = how % 8 == 1 ? 0 : 1 + how % 25U;
        for (std::size_t course = 0; course < strings; ++course) {
            const double hz = 55.0 * std::exp2(static_cast<double>(course + how % 24U) / 12.0);
            target->strings.push_back({{course % 2, course}, Hertz(hz), 0.0});
        }
        target->pairs = how % 2 == 0;
        target->askedMayBeFar = how % 3 == 0;
        target->range = Cents(5.0 + how % 240);
        if (how % 5 == 0) {
            target->asked = StringId{how % 2U, how % 30U};
        }
        subject_.analyser.setTarget(target);
    }

    void push(const std::vector<float>& sound) {
        frames_ += std::max<std::size_t>(1, sound.size());
        // As a device delivers it: in blocks.
        const std::span<const float> whole(sound);
        std::size_t done = 0;
        do {
            const std::size_t count = std::min<std::size_t>(256, whole.size() - done);
            const auto shot = subject_.analyser.push(
                {subject_.next, whole.subspan(done, count), subject_.discontinuity});
            subject_.discontinuity = false;
            subject_.next = subject_.next + FrameCount(static_cast<std::int64_t>(count));
            done += count;
            if (shot) {
                test::expectSensible(*shot, subject_.last);
                subject_.last = *shot;
            }
        } while (done < whole.size());
    }

    std::span<const std::uint8_t> left_;
    Subject& subject_;
    std::size_t frames_ = 0;
    std::uint32_t seed_ = 1;
};

} // namespace

/// The live analysis under sounds, gaps and changes of target in any order.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    Play(data, size).run();
    return 0;
}
