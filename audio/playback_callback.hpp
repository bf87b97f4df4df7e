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
    void beforeRun() { flows_ = false; }

    /// **Thread** callback.
    void process(const CallbackData& data) noexcept;

    /// **Thread** one that sets tones.
    void setTone(const ToneRequest& tone) noexcept { tone_.set(tone); }

    /// **Thread** one renderer.
    [[nodiscard]] std::size_t room() const noexcept;
    std::size_t write(std::span<const float> samples) noexcept;

    /// **Thread** any.
    [[nodiscard]] std::uint64_t underruns() const noexcept {
        return underruns_.load(std::memory_order_relaxed);
    }

private:
    std::size_t most_; // frames that may wait
    SpscRing<float> ring_;
    Latest<ToneRequest> tone_;
    ToneVoices voices_;
    bool flows_ = false; // the last callback was filled from the ring
    std::atomic<std::uint64_t> underruns_{0};
};

} // namespace quillbench
