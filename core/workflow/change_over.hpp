#pragma once

#include "core/instrument/instrument.hpp"
#include "core/temperament/temperament.hpp"
#include "core/units/cents.hpp"
#include "core/units/frames.hpp"
#include "core/workflow/player_speed.hpp"

#include <map>
#include <vector>

namespace quillbench {

/// One string on the way from one temperament to another.
struct StringMove {
    StringId string;
    Cents move; ///< + is up
};

/// What it costs to tune from where the instrument stands to another temperament.
struct ChangeOver {
    std::vector<StringMove>
        strings;       ///< that have to move, the flattened first: they relieve the instrument
    Cents shift;       ///< of the whole new tuning from its own standard
    Cents furthestUp;  ///< the most that a string rises
    Cents averageMove; ///< of those that move, without sign
    Seconds time{0};
};

/// There and back: what comes back is the present temperament at its own standard, not what was out of tune in it.
struct ThereAndBack {
    ChangeOver there;
    ChangeOver back;
};

/// The cost with the new temperament at `shift` from its own standard.
/// **Range** deviations of strings from `now` at `position`; a string not in it counts as in tune. tolerance > 0.
[[nodiscard]] ThereAndBack changeOver(const Instrument& instrument,
                                      const TunedScale& now,
                                      const std::map<StringId, Cents>& deviations,
                                      const TunedScale& wanted,
                                      Cents shift,
                                      Cents tolerance,
                                      const PlayerSpeed& speed,
                                      int position = 0);

/// The shift that lets fewest strings move, within ±most of the standard; among equals the smallest.
[[nodiscard]] Cents shiftThatMovesFewest(const Instrument& instrument,
                                         const TunedScale& now,
                                         const std::map<StringId, Cents>& deviations,
                                         const TunedScale& wanted,
                                         Cents tolerance,
                                         Cents most = Cents(5.0),
                                         int position = 0);

} // namespace quillbench
