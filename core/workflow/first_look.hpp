#pragma once

#include "core/instrument/instrument.hpp"
#include "core/units/cents.hpp"
#include "core/units/frames.hpp"
#include "core/workflow/player_speed.hpp"

#include <optional>
#include <span>
#include <vector>

namespace quillbench {

/// Where one string was found, from its target at the standard.
struct FoundString {
    StringId string;
    Cents deviation;
    Cents uncertainty;

    bool operator==(const FoundString&) const = default;
};

/// A pitch at which the instrument could be tuned tonight.
struct PitchOffer {
    enum class Kind {
        Standard,
        LeavesMostAlone, ///< where most strings already stand
        AsHeard,         ///< what an organ, oboe or fork was heard to give
    };
    Kind kind = Kind::Standard;
    Cents shift; ///< from the standard
    Cents shiftUncertainty;
    double strings = 0; ///< that have to move, of those to be tuned; reckoned from the ones heard
    Cents averageMove;  ///< of all strings, without sign
    Cents furthestUp;   ///< the most that a string heard would have to rise
    Seconds time{0};    ///< at this player's speed, every string heard once
};

/// The offers after a first look: the standard, where most of the instrument stands, and what was heard if anything
/// was. A choir of which nothing was heard counts like the rest. **Range** found not empty; tolerance > 0.
[[nodiscard]] std::vector<PitchOffer> pitchOffers(const Instrument& instrument,
                                                  std::span<const FoundString> found,
                                                  Cents tolerance,
                                                  const PlayerSpeed& speed,
                                                  std::optional<FoundString> heard = std::nullopt);

/// Average move of each choir, without sign, if everything is shifted: what planSession takes. 0 where nothing was heard.
[[nodiscard]] std::vector<Cents>
expectedMoves(const Instrument& instrument, std::span<const FoundString> found, Cents shift);

} // namespace quillbench
