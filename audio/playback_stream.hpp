#pragma once

#include "audio/engine_state.hpp"
#include "core/support/fixed_vector.hpp"
#include "core/support/result.hpp"
#include "core/units/decibel.hpp"
#include "core/units/frames.hpp"
#include "core/units/hertz.hpp"

#include <cstddef>
#include <cstdint>
#include <memory>
#include <span>
#include <string>

namespace quillbench {

class SoundWorker;

/// One steady tone: partials 1 to `partials` at whole multiples, each 6 dB an octave weaker, so that a low note is
/// heard on small loudspeakers too.
struct ToneVoice {
    Hertz frequency;  ///< 0 < f < half the rate; partials above that are left out
    Decibel level;    ///< of partial 1
    int partials = 1; ///< 1 to 16
};

/// The tones that should sound now; empty for none. A change fades over 10 ms; two voices side by side beat.
struct ToneRequest {
    FixedVector<ToneVoice, 4> voices;
};

struct PlaybackSettings {
    std::string device; ///< name from the device list; empty: the host's default output
    SampleRate rate;
};

/// Sound out through PortAudio: reference tones, and whatever a renderer writes (the virtual instrument). Its
/// callback always fills its buffer. Comes back by itself after the device was lost.
class PlaybackStream {
public:
    /// `worker` must outlive this object.
    PlaybackStream(SoundWorker& worker, const PlaybackSettings& settings);
    PlaybackStream(const PlaybackStream&) = delete;
    PlaybackStream& operator=(const PlaybackStream&) = delete;
    ~PlaybackStream();

    [[nodiscard]] SampleRate sampleRate() const;

    void start();

    /// Returns within two seconds whatever the device does.
    void stop();

    /// Stands still where it runs, or goes on; nothing is played meanwhile and state() says Idle. Going on takes some
    /// hundredths of a second. **Thread** the one that writes.
    void setResting(bool resting);

    [[nodiscard]] EngineState state() const;

    /// **Thread** one ordinary thread (the window's).
    void setTone(const ToneRequest& tone);

    /// How many frames write() would take now: together with what waits already, as many as the device asks for at once
    /// and 8 ms, more where the renderer came too late.
    /// **Thread** the one that writes.
    [[nodiscard]] std::size_t room() const;

    /// Adds sound behind what waits to be played; says how many frames were taken. **Thread** one renderer.
    std::size_t write(std::span<const float> samples);

    /// Times the callback found too little written sound and played silence instead, while a renderer was writing.
    [[nodiscard]] std::uint64_t underruns() const;

    /// From a frame's being written to its leaving the computer: what waits before it, and what the device states; 0
    /// before it runs.
    [[nodiscard]] Seconds latency() const;

private:
    class Core;
    SoundWorker& worker_;
    std::shared_ptr<Core> core_;
    bool started_ = false;
};

} // namespace quillbench
