#include "audio/capture_callback.hpp"

#include "core/support/contract.hpp"

#include <algorithm>

namespace quillbench {
namespace {

// Blocks: 2 MB; 10 s at 48 kHz in full blocks, 2.7 s in callbacks of 64 frames.
constexpr std::size_t kRingBlocks = 2048;

void add(std::atomic<std::uint64_t>& counter, std::uint64_t amount) noexcept {
    counter.store(counter.load(std::memory_order_relaxed) + amount, std::memory_order_relaxed);
}

template <typename T>
void raise(std::atomic<T>& highest, T value) noexcept {
    highest.store(std::max(highest.load(std::memory_order_relaxed), value),
                  std::memory_order_relaxed);
}

} // namespace

CaptureCallback::CaptureCallback(SampleRate rate, int channel)
    : rate_(rate),
      channel_(static_cast<std::size_t>(channel)),
      ring_(kRingBlocks) {
    EXPECTS(channel >= 0);
}

void CaptureCallback::beforeRun(Clock::time_point now) {
    if (run_ > 0) {
        next_ = next_ + std::max(FrameCount(0), rate_.frames(Seconds(now - last_)));
        broken_ = true;
    }
    ++run_;
    last_ = now;
    add(openings_, 1);
}

void CaptureCallback::process(const CallbackData& data) noexcept {
    add(callbacks_, 1);
    if (data.disturbed) {
        add(overflows_, 1);
        broken_ = true;
    }
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
    raise(fullest_, std::uint64_t{ring_.size()});
}

CaptureCounts CaptureCallback::counts() const noexcept {
    CaptureCounts counts;
    counts.callbacks = callbacks_.load(std::memory_order_relaxed);
    counts.frames = frames_.load(std::memory_order_relaxed);
    counts.overflows = overflows_.load(std::memory_order_relaxed);
    counts.dropped = dropped_.load(std::memory_order_relaxed);
    counts.openings = openings_.load(std::memory_order_relaxed);
    counts.fullest = fullest_.load(std::memory_order_relaxed);
    return counts;
}

} // namespace quillbench
