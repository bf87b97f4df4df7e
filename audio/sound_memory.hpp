#pragma once

#include "core/analysis/sound_block.hpp"
#include "core/units/frames.hpp"

#include <cstddef>
#include <vector>

namespace quillbench {

/// The last samples that were heard, without a gap among them: one forgets what was before.
/// **Thread** one at a time. Allocates in the constructor and in copy() only.
class SoundMemory {
public:
    /// **Range** at least one frame.
    explicit SoundMemory(std::size_t frames);

    void push(const SoundBlock& block);

    /// The oldest frame that is kept; end() where none is.
    [[nodiscard]] FrameIndex first() const;

    /// One past the newest.
    [[nodiscard]] FrameIndex end() const { return end_; }

    /// The samples from one frame up to another, as far as they are kept.
    [[nodiscard]] std::vector<float> copy(FrameIndex from, FrameIndex to) const;

private:
    std::vector<float> ring_;
    FrameIndex end_;
    std::size_t held_ = 0;
};

} // namespace quillbench
