#include "audio/sound_memory.hpp"

#include "core/support/contract.hpp"

#include <algorithm>

namespace quillbench {

SoundMemory::SoundMemory(std::size_t frames) : ring_(frames) {
    EXPECTS(frames > 0);
}

void SoundMemory::push(const SoundBlock& block) {
    if (block.discontinuity || block.first != end_) {
        held_ = 0;
        end_ = block.first;
    }
    for (const float sample : block.samples) {
        ring_[static_cast<std::size_t>(end_.value()) % ring_.size()] = sample;
        end_ = end_ + FrameCount(1);
    }
    held_ = std::min(held_ + block.samples.size(), ring_.size());
}

FrameIndex SoundMemory::first() const {
    return end_ - FrameCount(static_cast<std::int64_t>(held_));
}

std::vector<float> SoundMemory::copy(FrameIndex from, FrameIndex to) const {
    const FrameIndex begin = std::max(from, first());
    const FrameIndex stop = std::min(to, end_);
    std::vector<float> samples;
    if (begin >= stop) {
        return samples;
    }
    samples.reserve(static_cast<std::size_t>((stop - begin).value()));
    for (FrameIndex at = begin; at < stop; at = at + FrameCount(1)) {
        samples.push_back(ring_[static_cast<std::size_t>(at.value()) % ring_.size()]);
    }
    return samples;
}

} // namespace quillbench
