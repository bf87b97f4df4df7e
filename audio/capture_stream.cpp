#include "audio/capture_stream.hpp"

#include "audio/device_stream.hpp"
#include "audio/latest.hpp"
#include "audio/sound_worker.hpp"
#include "audio/spsc_ring.hpp"
#include "core/support/contract.hpp"

#include <algorithm>
#include <atomic>

namespace quillbench {
namespace {

// Blocks: 2 MB; 10 s at 48 kHz in full blocks, 2.7 s in callbacks of 64 frames.
constexpr std::size_t kRingBlocks = 2048;
// Buffering asked of the device: the analysis can wait, and a late callback thread loses nothing.
constexpr Seconds kLatency{0.06};

} // namespace

class CaptureStream::Core final : public DeviceStream {
public:
    explicit Core(const CaptureSettings& settings)
        : DeviceStream(DeviceRequest{
              Direction::Input, settings.device, settings.channel + 1, settings.rate, kLatency}),
          channel_(static_cast<std::size_t>(settings.channel)),
          ring_(kRingBlocks) {}

    [[nodiscard]] bool take(AudioBlock& block) noexcept { return ring_.tryPop(block); }

    [[nodiscard]] ClockStamp stamp() noexcept { return stamp_.get(); }

    [[nodiscard]] CaptureCounts counts() const {
        CaptureCounts counts;
        counts.callbacks = callbacks_.load(std::memory_order_relaxed);
        counts.frames = frames_.load(std::memory_order_relaxed);
        counts.overflows = overflows_.load(std::memory_order_relaxed);
        counts.dropped = dropped_.load(std::memory_order_relaxed);
        counts.openings = openings_.load(std::memory_order_relaxed);
        return counts;
    }

private:
    void beforeRun(Clock::time_point now, Seconds /*latency*/) override {
        if (run_ > 0) {
            const SampleRate rate = request().rate;
            next_ = next_ + std::max(FrameCount(0), rate.frames(Seconds(now - last_)));
            broken_ = true;
        }
        ++run_;
        last_ = now;
        add(openings_, 1);
    }

    void process(const CallbackData& data) noexcept override {
        add(callbacks_, 1);
        if (data.disturbed) {
            add(overflows_, 1);
        }
        broken_ = broken_ || data.disturbed;
        const auto channels = static_cast<std::size_t>(data.channels);
        std::size_t done = 0;
        while (data.input != nullptr && done < data.frames) {
            const std::size_t count = std::min(data.frames - done, AudioBlock::kMaxFrames);
            AudioBlock block;
            block.first = next_ + FrameCount(static_cast<std::int64_t>(done));
            block.count = static_cast<std::uint32_t>(count);
            block.discontinuity = broken_;
            for (std::size_t i = 0; i < count; ++i) {
                block.samples[i] = data.input[(done + i) * channels + channel_];
            }
            if (ring_.tryPush(block)) {
                broken_ = false;
                add(frames_, count);
            } else {
                add(dropped_, 1);
            }
            done += count;
        }
        next_ = next_ + FrameCount(static_cast<std::int64_t>(data.frames));
        last_ = data.time;
        stamp_.set(ClockStamp{next_, data.time, run_});
    }

    static void add(std::atomic<std::uint64_t>& counter, std::uint64_t amount) noexcept {
        counter.store(counter.load(std::memory_order_relaxed) + amount, std::memory_order_relaxed);
    }

    std::size_t channel_;
    SpscRing<AudioBlock> ring_;
    Latest<ClockStamp> stamp_;
    // Of the callback while one runs, of the worker between runs.
    FrameIndex next_;
    Clock::time_point last_;
    std::uint32_t run_ = 0;
    bool broken_ = false;
    // Written by those only.
    std::atomic<std::uint64_t> callbacks_{0};
    std::atomic<std::uint64_t> frames_{0};
    std::atomic<std::uint64_t> overflows_{0};
    std::atomic<std::uint64_t> dropped_{0};
    std::atomic<std::uint64_t> openings_{0};
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
    if (!core_->take(block)) {
        return false;
    }
    clock_.add(core_->stamp());
    return true;
}

EngineState CaptureStream::state() const {
    return core_->state();
}

CaptureCounts CaptureStream::counts() const {
    return core_->counts();
}

const CaptureClock& CaptureStream::clock() const {
    return clock_;
}

} // namespace quillbench
