#pragma once

#include "core/units/frames.hpp"

#include <cmath>
#include <span>

namespace quillbench {

/// Whether a sample can be sound: a number, and not beyond all measure.
[[nodiscard]] inline bool isSound(float sample) {
    return std::abs(sample) <= 1e4F; // 80 dB over full scale
}

/// A run of mono samples that are sound (isSound), full scale ±1. A view: valid during the call it is passed to.
struct SoundBlock {
    FrameIndex first; ///< index of the first sample; a jump against the last block is a gap
    std::span<const float> samples;
    bool discontinuity = false; ///< an unknown amount of sound was lost before this block
};

} // namespace quillbench
