#include "audio/playback_callback.hpp"

#include "audio/audio_block.hpp"

#include <algorithm>
#include <array>

namespace quillbench {
namespace {

constexpr Seconds kMostWaiting{0.05};

} // namespace

PlaybackCallback::PlaybackCallback(SampleRate rate)
    : most_(static_cast<std::size_t>(rate.frames(kMostWaiting).value())),
      ring_(most_),
      voices_(rate) {
}

std::size_t PlaybackCallback::room() const noexcept {
    return most_ - std::min(most_, ring_.size());
}

std::size_t PlaybackCallback::write(std::span<const float> samples) noexcept {
    return ring_.push(samples.first(std::min(samples.size(), room())));
}

void PlaybackCallback::process(const CallbackData& data) noexcept {
    if (data.output == nullptr) {
        return;
    }
    const auto channels = static_cast<std::size_t>(data.channels);
    const ToneRequest& tone = tone_.get();
    std::array<float, AudioBlock::kMaxFrames> mono{};
    std::size_t written = 0;
    for (std::size_t done = 0; done < data.frames;) {
        const std::size_t count = std::min(data.frames - done, mono.size());
        const std::span<float> part(mono.data(), count);
        const std::size_t got = ring_.pop(part);
        std::fill(part.begin() + static_cast<std::ptrdiff_t>(got), part.end(), 0.0F);
        written += got;
        voices_.addTo(part, tone);
        for (std::size_t i = 0; i < count; ++i) {
            std::fill_n(
                data.output + (done + i) * channels, channels, std::clamp(part[i], -1.0F, 1.0F));
        }
        done += count;
    }
    if (flows_ && written < data.frames) {
        underruns_.store(underruns_.load(std::memory_order_relaxed) + 1, std::memory_order_relaxed);
    }
    flows_ = written == data.frames;
}

} // namespace quillbench
