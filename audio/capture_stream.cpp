#include "audio/capture_stream.hpp"

#include "audio/device_stream.hpp"
#include "audio/sound_worker.hpp"
#include "core/support/contract.hpp"

namespace quillbench {
namespace {

// Buffering asked of the device: the analysis can wait, and a late callback thread loses nothing.
constexpr Seconds kLatency{0.12};

} // namespace

class CaptureStream::Core final : public DeviceStream {
public:
    explicit Core(const CaptureSettings& settings)
        : DeviceStream(DeviceRequest{
              Direction::Input, settings.device, settings.channel + 1, settings.rate, kLatency}),
          callback(settings.rate, settings.channel) {}

    CaptureCallback callback;

private:
    void beforeRun(Clock::time_point now, Seconds /*latency*/) override { callback.beforeRun(now); }

    void process(const CallbackData& data) noexcept override { callback.process(data); }
};

CaptureStream::CaptureStream(SoundWorker& worker, const CaptureSettings& settings)
    : worker_(worker),
      settings_(settings),
      clock_(settings.rate) {
    EXPECTS(settings.channel >= 0);
    core_ = std::make_shared<Core>(settings);
}

CaptureStream::~CaptureStream() {
    stop();
}

SampleRate CaptureStream::sampleRate() const {
    return settings_.rate;
}

Result<void> CaptureStream::start() {
    if (!started_) {
        started_ = true;
        worker_.add(core_);
    }
    return {};
}

void CaptureStream::stop() {
    if (started_) {
        started_ = false;
        worker_.remove(core_);
    }
}

bool CaptureStream::take(AudioBlock& block) {
    if (!core_->callback.take(block)) {
        return false;
    }
    clock_.add(core_->callback.stamp());
    return true;
}

EngineState CaptureStream::state() const {
    return core_->state();
}

CaptureCounts CaptureStream::counts() const {
    return core_->callback.counts();
}

const CaptureClock& CaptureStream::clock() const {
    return clock_;
}

} // namespace quillbench
