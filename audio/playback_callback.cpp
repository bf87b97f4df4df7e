#include "audio/playback_callback.hpp"

#include "audio/audio_block.hpp"

#include <algorithm>
#include <array>

namespace quillbench {
namespace {

constexpr Seconds kRoomAtMost{0.25};    // whatever pieces the device asks for
constexpr Seconds kSlackAtFirst{0.008}; // the renderer wakes every 3 ms
constexpr Seconds kSlackMore{0.004};    // after each time it came too late
constexpr Seconds kSlackAtMost{0.05};
constexpr Seconds kPieceAtFirst{0.012}; // before the device asked

} // namespace

PlaybackCallback::PlaybackCallback(SampleRate rate)
    : slackMore_(static_cast<std::size_t>(rate.frames(kSlackMore).value())),
      slackAtMost_(static_cast<std::size_t>(rate.frames(kSlackAtMost).value())),
      slack_(static_cast<std::size_t>(rate.frames(kSlackAtFirst).value())),
      piece_(static_cast<std::size_t>(rate.frames(kPieceAtFirst).value())),
      ring_(static_cast<std::size_t>(rate.frames(kRoomAtMost).value())),
      most_(piece_ + slack_),
      voices_(rate) {
}

void PlaybackCallback::beforeRun() {
    flows_ = false;
    piece_ = 0;
}

std::size_t PlaybackCallback::waiting() const noexcept {
    return most_.load(std::memory_order_relaxed);
}

std::size_t PlaybackCallback::room() const noexcept {
    return waiting() - std::min(waiting(), ring_.size());
}

void PlaybackCallback::learn(std::size_t piece, bool late) noexcept {
    if (piece <= piece_ && !late) {
        return;
    }
    piece_ = std::max(piece_, piece);
    slack_ = late ? std::min(slackAtMost_, slack_ + slackMore_) : slack_;
    most_.store(std::min(ring_.capacity(), piece_ + slack_), std::memory_order_relaxed);
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
    const bool late = flows_ && written < data.frames;
    learn(data.frames, late);
    if (late) {
        underruns_.store(underruns_.load(std::memory_order_relaxed) + 1, std::memory_order_relaxed);
    }
    flows_ = written == data.frames;
}

} // namespace quillbench
