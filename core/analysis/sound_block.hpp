#pragma once

#include "core/units/frames.hpp"

#include <span>

namespace quillbench {

/// A run of mono samples, full scale ±1. A view: valid during the call it is passed to.
struct SoundBlock {
    FrameIndex first; ///< index of the first sample; a jump against the last block is a gap
    std::span<const float> samples;
    bool discontinuity = false; ///< an unknown amount of sound was lost before this block
};

} // namespace quillbench
