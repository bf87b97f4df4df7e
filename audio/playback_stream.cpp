#include "audio/playback_stream.hpp"

#include "audio/audio_block.hpp"
#include "audio/device_stream.hpp"
#include "audio/latest.hpp"
#include "audio/sound_worker.hpp"
#include "audio/spsc_ring.hpp"
#include "audio/tone_voices.hpp"

#include <algorithm>
#include <array>
#include <atomic>

namespace quillbench {
namespace {

constexpr Seconds kLatency{0.03}; // asked of the device: what is plucked is heard soon
constexpr Seconds kWaiting{0.05}; // the most that waits in the ring

} // namespace

class PlaybackStream::Core final : public DeviceStream {
public:
    explicit Core(const PlaybackSettings& settings)
        : DeviceStream(
              DeviceRequest{Direction::Output, settings.device, 2, settings.rate, kLatency}),
          most_(static_cast<std::size_t>(settings.rate.frames(kWaiting).value())),
          ring_(most_),
          voices_(settings.rate) {}

    void setTone(const ToneRequest& tone) noexcept { tone_.set(tone); }

    [[nodiscard]] std::size_t room() const noexcept {
        return most_ - std::min(most_, ring_.size());
    }

    std::size_t write(std::span<const float> samples) noexcept {
        return ring_.push(samples.first(std::min(samples.size(), room())));
    }

    [[nodiscard]] std::uint64_t underruns() const noexcept {
        return underruns_.load(std::memory_order_relaxed);
    }

    [[nodiscard]] Seconds latency() const noexcept {
        return Seconds(latencyS_.load(std::memory_order_relaxed));
    }

private:
    void beforeRun(Clock::time_point /*now*/, Seconds latency) override {
        latencyS_.store(latency.count(), std::memory_order_relaxed);
        flows_ = false;
    }

    void process(const CallbackData& data) noexcept override {
        if (data.output == nullptr) {
            return;
        }
        const auto channels = static_cast<std::size_t>(data.channels);
        const ToneRequest& tone = tone_.get();
        std::array<float, AudioBlock::kMaxFrames> mono{};
        std::size_t written = 0;
        for (std::size_t done = 0; done < data.frames;) {
            const std::size_t count = std::min(data.frames - done, mono.size());
            const std::span<float> part(mono.data(), count);
            const std::size_t got = ring_.pop(part);
            std::fill(part.begin() + static_cast<std::ptrdiff_t>(got), part.end(), 0.0F);
            written += got;
            voices_.addTo(part, tone);
            for (std::size_t i = 0; i < count; ++i) {
                std::fill_n(data.output + (done + i) * channels,
                            channels,
                            std::clamp(part[i], -1.0F, 1.0F));
            }
            done += count;
        }
        if (flows_ && written < data.frames) {
            underruns_.store(underruns_.load(std::memory_order_relaxed) + 1,
                             std::memory_order_relaxed);
        }
        flows_ = written == data.frames;
    }

    std::size_t most_; // frames that may wait
    SpscRing<float> ring_;
    Latest<ToneRequest> tone_;
    ToneVoices voices_;
    bool flows_ = false; // the last callback was filled from the ring
    std::atomic<std::uint64_t> underruns_{0};
    std::atomic<double> latencyS_{0.0};
};

PlaybackStream::PlaybackStream(SoundWorker& worker, const PlaybackSettings& settings)
    : worker_(worker),
      core_(std::make_shared<Core>(settings)) {
}

PlaybackStream::~PlaybackStream() {
    stop();
}

SampleRate PlaybackStream::sampleRate() const {
    return core_->request().rate;
}

void PlaybackStream::start() {
    if (!started_) {
        started_ = true;
        worker_.add(core_);
    }
}

void PlaybackStream::stop() {
    if (started_) {
        started_ = false;
        worker_.remove(core_);
    }
}

EngineState PlaybackStream::state() const {
    return core_->state();
}

void PlaybackStream::setTone(const ToneRequest& tone) {
    core_->setTone(tone);
}

std::size_t PlaybackStream::room() const {
    return core_->room();
}

std::size_t PlaybackStream::write(std::span<const float> samples) {
    return core_->write(samples);
}

std::uint64_t PlaybackStream::underruns() const {
    return core_->underruns();
}

Seconds PlaybackStream::latency() const {
    return core_->latency();
}

} // namespace quillbench
