#pragma once

#include "core/analysis/sound_block.hpp"
#include "core/units/frames.hpp"

#include <array>
#include <cstddef>
#include <cstdint>
#include <type_traits>

namespace quillbench {

/// Up to 256 captured frames with their place in time. Trivially copyable: passes through SpscRing.
struct AudioBlock {
    static constexpr std::size_t kMaxFrames = 256;

    FrameIndex first;
    std::uint32_t count = 0;
    bool discontinuity = false; ///< the device reported an overflow before this block
    std::array<float, kMaxFrames> samples{};

    /// The block as the analysis takes it; valid as long as this object is.
    [[nodiscard]] SoundBlock view() const {
        return SoundBlock{first, {samples.data(), count}, discontinuity};
    }
};

static_assert(std::is_trivially_copyable_v<AudioBlock>);

} // namespace quillbench
