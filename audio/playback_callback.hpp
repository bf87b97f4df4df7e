#pragma once

#include "audio/callback_data.hpp"
#include "audio/latest.hpp"
#include "audio/playback_stream.hpp"
#include "audio/spsc_ring.hpp"
#include "audio/tone_voices.hpp"
#include "core/units/frames.hpp"

#include <atomic>
#include <cstddef>
#include <cstdint>
#include <span>

namespace quillbench {

/// The real-time work of playback: what a renderer wrote, and tones, onto all channels; silence where there is neither.
class PlaybackCallback {
public:
    explicit PlaybackCallback(SampleRate rate);

    /// Before the device asks for sound; no process() runs meanwhile.
    void beforeRun();

    /// **Thread** callback.
    void process(const CallbackData& data) noexcept;

    /// **Thread** one that sets tones.
    void setTone(const ToneRequest& tone) noexcept { tone_.set(tone); }

    /// **Thread** one renderer.
    [[nodiscard]] std::size_t room() const noexcept;
    std::size_t write(std::span<const float> samples) noexcept;

    /// How many frames wait at the most: the largest piece that the device asked for, and a slack for the renderer, which
    /// grows each time it came too late. **Thread** any.
    [[nodiscard]] std::size_t waiting() const noexcept;

    /// **Thread** any.
    [[nodiscard]] std::uint64_t underruns() const noexcept {
        return underruns_.load(std::memory_order_relaxed);
    }

private:
    void learn(std::size_t piece, bool late) noexcept;

    std::size_t slackMore_; // all in frames
    std::size_t slackAtMost_;
    std::size_t slack_;
    std::size_t piece_; // the largest that was asked for
    SpscRing<float> ring_;
    std::atomic<std::size_t> most_; // that may wait
    Latest<ToneRequest> tone_;
    ToneVoices voices_;
    bool flows_ = false; // the last callback was filled from the ring
    std::atomic<std::uint64_t> underruns_{0};
};

} // namespace quillbench
