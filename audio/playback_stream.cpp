#include "audio/playback_stream.hpp"

#include "audio/device_stream.hpp"
#include "audio/playback_callback.hpp"
#include "audio/sound_worker.hpp"

#include <atomic>

namespace quillbench {
namespace {

constexpr Seconds kPlaybackLatency{0.015}; // asked of the device: what is plucked is heard soon

} // namespace

class PlaybackStream::Core final : public DeviceStream {
public:
    explicit Core(const PlaybackSettings& settings)
        : DeviceStream(DeviceRequest{
              Direction::Output, settings.device, 2, settings.rate, kPlaybackLatency}),
          callback(settings.rate) {}

    PlaybackCallback callback;
    std::atomic<double> latencyS{0.0};

private:
    void beforeRun(Clock::time_point /*now*/, Seconds latency) override {
        latencyS.store(latency.count(), std::memory_order_relaxed);
        callback.beforeRun();
    }

    void process(const CallbackData& data) noexcept override { callback.process(data); }
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

void PlaybackStream::setResting(bool resting) {
    worker_.setResting(core_, resting);
}

EngineState PlaybackStream::state() const {
    return core_->state();
}

void PlaybackStream::setTone(const ToneRequest& tone) {
    core_->callback.setTone(tone);
}

std::size_t PlaybackStream::room() const {
    return core_->callback.room();
}

std::size_t PlaybackStream::write(std::span<const float> samples) {
    return core_->callback.write(samples);
}

std::uint64_t PlaybackStream::underruns() const {
    return core_->callback.underruns();
}

Seconds PlaybackStream::latency() const {
    const double device = core_->latencyS.load(std::memory_order_relaxed);
    return device > 0.0
               ? Seconds(device) + sampleRate().duration(FrameCount(
                                       static_cast<std::int64_t>(core_->callback.waiting())))
               : Seconds(0.0);
}

} // namespace quillbench
