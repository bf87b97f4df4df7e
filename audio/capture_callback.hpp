#pragma once

#include "audio/audio_block.hpp"
#include "audio/callback_data.hpp"
#include "audio/capture_clock.hpp"
#include "audio/latest.hpp"
#include "audio/spsc_ring.hpp"
#include "core/units/frames.hpp"

#include <atomic>
#include <chrono>
#include <cstddef>
#include <cstdint>

namespace quillbench {

/// What has been captured and what was lost, since the first start.
struct CaptureCounts {
    std::uint64_t callbacks = 0;
    std::uint64_t frames = 0;    ///< handed to the ring
    std::uint64_t overflows = 0; ///< times the device said it lost sound
    std::uint64_t dropped = 0;   ///< blocks that found the ring full
    std::uint64_t openings = 0;  ///< times the device was opened with success
    std::uint64_t fullest = 0;   ///< most blocks that waited in the ring at once
};

/// The real-time work of capture: copies one channel into blocks, stamps them, flags what the device lost, counts what
/// the ring could not take. A block that was dropped leaves a jump of FrameIndex.
class CaptureCallback {
public:
    using Clock = std::chrono::steady_clock;

    CaptureCallback(SampleRate rate, int channel);

    /// Before the device delivers; no process() runs meanwhile. After the first time, the frames of the time that has
    /// passed since the last sound are left out and the next block is marked as a discontinuity.
    void beforeRun(Clock::time_point now);

    /// **Thread** callback.
    void process(const CallbackData& data) noexcept;

    /// **Thread** the one that takes.
    [[nodiscard]] bool take(AudioBlock& block) noexcept { return ring_.tryPop(block); }

    /// The frame after the newest captured, and when it came. **Thread** the one that takes.
    [[nodiscard]] ClockStamp stamp() noexcept { return stamp_.get(); }

    /// **Thread** any.
    [[nodiscard]] CaptureCounts counts() const noexcept;

private:
    SampleRate rate_;
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
    std::atomic<std::uint64_t> fullest_{0};
};

} // namespace quillbench
