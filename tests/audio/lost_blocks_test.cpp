// A lost block is a gap, never a splice: what is heard across it is told by nobody.
#include "audio/analysis_engine.hpp"
#include "core/support/random.hpp"
#include "tests/support/pair_playing.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <memory>
#include <utility>
#include <vector>

using namespace quillbench;
using namespace quillbench::test;

namespace {

constexpr SampleRate kLossyRate{48000.0};
constexpr std::int64_t kBlock = 256; // frames

/// A device that loses blocks.
class LossySource final : public AudioSource {
public:
    LossySource(std::vector<float> sound, std::size_t losses, std::uint64_t seed)
        : sound_(std::move(sound)),
          lost_(sound_.size() / kBlock, false) {
        Random random(seed);
        while (losses > 0) {
            const auto which =
                static_cast<std::size_t>(random.uniform() * static_cast<double>(lost_.size() - 2));
            losses -= lost_[which + 1] ? 0U : 1U; // the first block is there
            lost_[which + 1] = true;
        }
    }

    [[nodiscard]] SampleRate sampleRate() const override { return kLossyRate; }

    [[nodiscard]] Result<void> start() override { return {}; }

    void stop() override {}

    [[nodiscard]] bool take(AudioBlock& block) override {
        while (next_ < lost_.size() && lost_[next_]) {
            ++next_;
        }
        if (next_ >= lost_.size()) {
            return false;
        }
        const std::size_t from = next_++ * kBlock;
        block.first = FrameIndex(static_cast<std::int64_t>(from));
        block.count = kBlock;
        std::copy_n(
            sound_.begin() + static_cast<std::ptrdiff_t>(from), kBlock, block.samples.begin());
        return true;
    }

    [[nodiscard]] EngineState state() const override {
        return {next_ < lost_.size() ? EnginePhase::Running : EnginePhase::Ended, std::nullopt};
    }

    /// Runs of lost blocks as the engine has to tell them.
    [[nodiscard]] std::vector<std::pair<FrameIndex, FrameCount>> gaps() const {
        std::vector<std::pair<FrameIndex, FrameCount>> runs;
        std::int64_t length = 0;
        for (std::size_t i = 0; i < lost_.size(); ++i) {
            if (lost_[i]) {
                ++length;
            } else if (const std::int64_t run = std::exchange(length, 0); run > 0) {
                runs.emplace_back(FrameIndex(static_cast<std::int64_t>(i) * kBlock),
                                  FrameCount(run * kBlock));
            }
        }
        return runs;
    }

    /// Whether all sound from one frame up to another was delivered.
    [[nodiscard]] bool whole(FrameIndex from, FrameIndex to) const {
        const auto first =
            static_cast<std::size_t>(std::max<std::int64_t>(0, from.value()) / kBlock);
        const auto last =
            std::min(static_cast<std::size_t>((to.value() - 1) / kBlock), lost_.size() - 1);
        return std::none_of(lost_.begin() + static_cast<std::ptrdiff_t>(first),
                            lost_.begin() + static_cast<std::ptrdiff_t>(last) + 1,
                            [](bool lost) { return lost; });
    }

private:
    std::vector<float> sound_;
    std::vector<bool> lost_;
    std::size_t next_ = 0;
};

/// A key of the piece, its strings so many cents apart.
struct Detuned {
    const char* key;
    double cents;
};

constexpr std::array<Detuned, 4> kKeys{{{"E3", 0.0}, {"A3", 5.0}, {"C4", -4.0}, {"G3", 9.0}}};

struct HeardWithLosses {
    std::shared_ptr<LossySource> source;
    std::vector<StringReading> readings;
    std::vector<PairReading> pairs;
    std::vector<GapEvent> gaps;
    std::vector<PairReading> live; ///< what was shown meanwhile
};

HeardWithLosses
listen(std::vector<float> sound, std::shared_ptr<const AnalysisTarget> target, std::size_t losses) {
    HeardWithLosses heard;
    heard.source = std::make_shared<LossySource>(std::move(sound), losses, 42);
    AnalysisEngine engine(heard.source);
    engine.setTarget(std::move(target));
    std::uint64_t seen = 0;
    while (engine.advance(FrameCount(kBlock)) > FrameCount(0)) {
        const auto shot = engine.snapshot();
        if (shot && shot->sequence != seen) {
            seen = shot->sequence;
            if (shot->pair && shot->pair->sounding && shot->pair->reading) {
                heard.live.push_back(*shot->pair->reading);
            }
        }
    }
    for (const EngineEvent& event : engine.drainEvents()) {
        if (const auto* reading = std::get_if<StringReading>(&event)) {
            heard.readings.push_back(*reading);
        } else if (const auto* pair = std::get_if<PairReading>(&event)) {
            heard.pairs.push_back(*pair);
        } else if (const auto* gap = std::get_if<GapEvent>(&event)) {
            heard.gaps.push_back(*gap);
        }
    }
    return heard;
}

void checkGaps(const HeardWithLosses& heard) {
    const auto lost = heard.source->gaps();
    REQUIRE(heard.gaps.size() == lost.size());
    for (std::size_t i = 0; i < lost.size(); ++i) {
        CHECK(heard.gaps[i].at == lost[i].first);
        CHECK(heard.gaps[i].lost == lost[i].second);
    }
}

/// Each pluck that was told of is one that was played, once; nothing of it was heard across a gap.
void checkPlucks(const HeardWithLosses& heard, const std::vector<PluckRecord>& played) {
    constexpr double kNear = 0.05; // seconds
    for (const StringReading& reading : heard.readings) {
        CAPTURE(reading.pluck.value(), reading.used.count());
        CHECK(std::any_of(played.begin(), played.end(), [&](const PluckRecord& pluck) {
            return std::abs(kLossyRate.duration(reading.pluck - pluck.at).count()) < kNear;
        }));
        if (reading.standing != Standing::Nothing) {
            CHECK(heard.source->whole(reading.pluck,
                                      reading.pluck + kLossyRate.frames(reading.used)));
        }
    }
}

} // namespace

TEST_CASE("a thousand lost blocks while strings beat: no beat, pluck or reading is made up",
          "[slow]") {
    PairPlayer player("single-8-8");
    for (const Detuned& one : kKeys) {
        player.detune(player.string("8b", one.key), one.cents);
    }
    player.on("8").on("8b");
    constexpr int kStrokes = 125;
    for (int i = 0; i < kStrokes; ++i) {
        player.key(kKeys[static_cast<std::size_t>(i) % kKeys.size()].key, 0.5 + 3.0 * i, 2.6);
    }
    auto sound = player.play(3.0 * kStrokes + 1.0);
    const HeardWithLosses heard = listen(std::move(sound), player.target({"8", "8b"}), 1000);
    checkGaps(heard);
    checkPlucks(heard, player.plucks());
    int told = 0;
    const auto check = [&](const PairReading& reading) {
        const double truth =
            player.restPitch(reading.upper).value() - player.restPitch(reading.lower).value();
        CAPTURE(reading.pluck.value(),
                reading.used.count(),
                reading.joint,
                reading.weak,
                truth,
                reading.beat.perSecond(),
                reading.uncertainty);
        CHECK(heard.source->whole(reading.pluck, reading.pluck + kLossyRate.frames(reading.used)));
        CHECK(reading.interval == IntervalKind::Unison);
        CHECK(std::abs(std::abs(reading.beat.perSecond()) - std::abs(truth)) <
              std::max(0.25, 4.0 * reading.uncertainty));
        ++told;
    };
    for (const PairReading& reading : heard.pairs) {
        check(reading);
    }
    for (const PairReading& reading : heard.live) {
        check(reading);
    }
    CHECK(told > 100);
}

TEST_CASE("lost blocks while single strings are read: every reading holds", "[slow]") {
    PairPlayer player("single-8-8");
    for (const Detuned& one : kKeys) {
        player.detune(player.string("8", one.key), 3.0 * one.cents);
    }
    player.on("8");
    constexpr int kStrokes = 70;
    for (int i = 0; i < kStrokes; ++i) {
        player.key(kKeys[static_cast<std::size_t>(i) % kKeys.size()].key, 0.5 + 1.2 * i, 1.0);
    }
    auto sound = player.play(1.2 * kStrokes + 1.0);
    const HeardWithLosses heard = listen(std::move(sound), player.target({"8"}), 105);
    checkGaps(heard);
    checkPlucks(heard, player.plucks());
    int sure = 0;
    for (const StringReading& reading : heard.readings) {
        if (reading.standing != Standing::Ok) {
            continue;
        }
        ++sure;
        const double off = interval(player.restPitch(reading.string), reading.pitch).value();
        CAPTURE(reading.pluck.value(), reading.used.count(), off);
        CHECK(std::abs(off) < 3.0);
    }
    CHECK(sure > kStrokes / 2);
}
