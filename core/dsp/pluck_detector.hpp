#pragma once

#include "core/analysis/sound_block.hpp"
#include "core/units/decibel.hpp"
#include "core/units/frames.hpp"

#include <memory>
#include <optional>

namespace quillbench {

/// A sudden beginning of sound: a pluck, or a knock that only its sustained partials tell from one.
struct Onset {
    FrameIndex at;      ///< the instant of the steepest rise
    FrameIndex knownAt; ///< the sound before this frame was needed to say so
    double rise = 0;    ///< decibels by which the rising bands rose, on average
};

/// Finds beginnings of sound in a stream, robust to steady hum and to strings that ring.
/// **Real-time** allocates only in the constructor.
class PluckDetector {
public:
    /// **Range** 8 000 to 192 000 Hz.
    explicit PluckDetector(SampleRate rate);
    ~PluckDetector();
    PluckDetector(PluckDetector&&) noexcept;
    PluckDetector& operator=(PluckDetector&&) noexcept;
    PluckDetector(const PluckDetector&) = delete;
    PluckDetector& operator=(const PluckDetector&) = delete;

    /// The next sound; says at most one onset a block (blocks of up to 20 ms lose none). A jump in the
    /// frame index or a discontinuity starts afresh.
    std::optional<Onset> push(const SoundBlock& block);

private:
    struct State;
    std::unique_ptr<State> state_;
};

} // namespace quillbench
