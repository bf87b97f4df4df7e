#pragma once

#include "audio/audio_source.hpp"
#include "core/dsp/steady/steady_pitch.hpp"

#include <memory>
#include <optional>
#include <vector>

namespace quillbench {

/// What is heard of an instrument whose pitch is wanted.
struct PitchHearing {
    bool sounds = false;             ///< a tone, now
    std::optional<SteadyPitch> tone; ///< of it, once it was held long enough
    std::vector<SteadyPitch> before; ///< the tones that ended, each held long enough, oldest first
    EngineState source;
};

/// Listens to tones that are held one after another, as long as it is wanted. **Thread** construct, hearing() and
/// destroy on any ordinary thread; it listens on one of its own.
class PitchListener {
public:
    /// Starts the source.
    explicit PitchListener(std::shared_ptr<AudioSource> source, ClockCalibration clock = {});
    PitchListener(const PitchListener&) = delete;
    PitchListener& operator=(const PitchListener&) = delete;

    /// Stops the source; returns within three seconds.
    ~PitchListener();

    [[nodiscard]] PitchHearing hearing() const;

private:
    struct Body;
    std::unique_ptr<Body> body_;
};

} // namespace quillbench
