#pragma once

#include "audio/audio_source.hpp"
#include "audio/clock_calibration.hpp"

#include <memory>
#include <optional>
#include <string>

namespace quillbench {

/// How a calibration stands.
struct ClockHearing {
    enum class Standing {
        Waiting,   ///< no sound comes; `source` says why
        Following, ///< a steady tone, not long enough yet
        NotHeard,  ///< no steady tone near the trusted one; `why` says what is amiss
        WrongTone, ///< a steady tone too far from the trusted one
        Known,     ///< `best` grows surer as long as the tone goes on
    };

    Standing standing = Standing::Waiting;
    Seconds steady{0};                    ///< for how long the tone has been steady
    std::optional<ClockCalibration> best; ///< the surest reading so far; kept when the tone ends
    std::string why;
    EngineState source;
};

/// Listens to a trusted tone as long as it is wanted. A tone that stops, or is disturbed, is followed anew; the surest
/// reading stays. **Thread** construct, hearing() and destroy on any ordinary thread; it listens on one of its own.
class ClockListener {
public:
    /// Starts the source. **Range** tone as ToneFollower's.
    ClockListener(std::shared_ptr<AudioSource> source, const TrustedTone& tone);
    ClockListener(const ClockListener&) = delete;
    ClockListener& operator=(const ClockListener&) = delete;

    /// Stops the source; returns within three seconds.
    ~ClockListener();

    [[nodiscard]] ClockHearing hearing() const;

private:
    struct Body;
    std::unique_ptr<Body> body_;
};

} // namespace quillbench
