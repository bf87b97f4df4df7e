#pragma once

#include "app/models/tuning_model.hpp"
#include "core/workflow/first_look.hpp"

#include <optional>

namespace quillbench {

/// What a first look found, and the pitches at which a session can go on.
struct LookOffers {
    std::size_t heard = 0;   ///< strings
    std::size_t strings = 0; ///< to be tuned, of all choirs
    PitchOffer standard;     ///< at the session's own pitch
    std::optional<PitchOffer>
        alone; ///< where most strings already stand, if it leaves at least one more alone
    std::optional<PitchOffer> asHeard; ///< at the pitch of another instrument
};

/// The offers of a whole session whose first look is done, until a string was set; else nothing. Tolerance is that of
/// the bearings. What was `heard` of another instrument is offered where it lies within 50 cents of the session's pitch;
/// further off is another standard.
[[nodiscard]] std::optional<LookOffers>
lookOffers(const TuningModel& tuning,
           const PlayerSpeed& speed = {},
           const std::optional<HeardPitch>& heard = std::nullopt);

} // namespace quillbench
