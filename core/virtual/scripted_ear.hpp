#pragma once

#include "core/support/random.hpp"
#include "core/units/beat_rate.hpp"
#include "core/units/cents.hpp"

#include <optional>

namespace quillbench {

/// What somebody heard of two strings that sounded together, and wanted to hear.
struct HeardByEar {
    BeatRate beat;             ///< as it was at the partials that meet; + wide
    BeatRate wanted;           ///< there
    double beatsPerCent = 0.0; ///< of the string that is tuned; > 0
    bool tunedIsUpper = true;
};

/// The ear of somebody who tunes by beats: hears how fast they come, not which way, except where the two are so far
/// apart that they sound like two notes. Learns the side from how the beat changes as the pin is turned. Seeded.
/// **Source** common practice, no source; a rate is told to about one part in twenty.
class ScriptedEar {
public:
    explicit ScriptedEar(std::uint64_t seed);

    /// Another string: nothing is known of its side.
    void begin();

    /// By how many cents to move the string that is tuned (+ up); nothing: it is as wanted. Until the side is known the
    /// string is taken to be flat.
    [[nodiscard]] std::optional<Cents> judge(const HeardByEar& heard);

    /// The string that is tuned was moved by about so much since.
    void moved(Cents by);

private:
    Random random_;
    std::optional<double> last_; ///< signed beat, per second, as it was taken to be
    double movedCents_ = 0.0;
};

} // namespace quillbench
