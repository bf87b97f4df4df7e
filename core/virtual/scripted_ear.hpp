#pragma once

#include "core/support/random.hpp"
#include "core/units/beat_rate.hpp"
#include "core/units/cents.hpp"

#include <cstddef>
#include <optional>

namespace quillbench {

/// What somebody heard of two strings that sounded together, and wanted to hear.
struct HeardByEar {
    BeatRate beat;             ///< as it was at the partials that meet; + wide
    BeatRate wanted;           ///< there
    double beatsPerCent = 0.0; ///< of the string that is tuned; > 0
    bool tunedIsUpper = true;
};

/// What the ear makes of what it heard since the pin was turned last. Neither: it listens once more.
struct EarsWish {
    std::optional<Cents> move; ///< the string that is tuned, + up
    bool content = false;      ///< it is as wanted
};

/// The ear of somebody who tunes by beats: hears how fast they come, not which way, except where the two are so far
/// apart that they sound like two notes. Learns the side from how the beat changes as the pin is turned. No two plucks
/// sound quite alike: of what is nearly there it wants to hear two. Seeded.
/// **Source** common practice, no source; a rate is told to about one part in twenty.
class ScriptedEar {
public:
    explicit ScriptedEar(std::uint64_t seed);

    /// Another string: nothing is known of its side.
    void begin();

    /// Until the side is known the string is taken to be flat.
    [[nodiscard]] EarsWish judge(const HeardByEar& heard);

    /// The string that is tuned was moved by about so much since.
    void moved(Cents by);

private:
    [[nodiscard]] double taken(const HeardByEar& heard);

    Random random_;
    std::optional<double> last_; ///< signed beat, per second, as it was taken to be
    double movedCents_ = 0.0;
    std::size_t heardStill_ = 0; ///< plucks since the pin was turned last
    double meanOff_ = 0.0;       ///< of these: signed beat from what is wanted
};

} // namespace quillbench
