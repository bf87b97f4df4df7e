#pragma once

#include "app/models/tuning_model.hpp"
#include "app/places/temperament/temperament_model.hpp"
#include "core/workflow/change_over.hpp"

#include <cstddef>
#include <optional>

namespace quillbench {

/// The whole moved a little, so that at least three strings fewer have to move.
struct ShiftOffer {
    double a4Hz = 415.0; ///< of the temperament on the bench, to the hundredth of a hertz
    ChangeOver there;
};

/// What it costs to go from where the instrument stands to the temperament on the bench.
struct ChangeOverOffer {
    TunedScale standsIn;
    std::size_t known = 0;   ///< strings whose pitch was read; the others count as in tune
    std::size_t strings = 0; ///< to be tuned, of all choirs
    ThereAndBack held;       ///< at the pitch on the bench
    std::optional<ShiftOffer> shifted;
    bool farUp = false; ///< a string rises by more than 10 cents or a quarter of its margin
};

/// Nothing where every string is wanted where it stands in already (within 0.05 cents). The instrument stands in what
/// the logbook says most of its strings were left in, else in what is tuned; strings where they were last heard. Choirs
/// that the session leaves alone are left out. Tolerance is that of the bearings, the speed the player's own.
/// **Range** tuning.ready().
[[nodiscard]] std::optional<ChangeOverOffer> changeOverOffer(const TuningModel& tuning,
                                                             const TemperamentModel& bench);

} // namespace quillbench
