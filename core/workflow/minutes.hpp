#pragma once

#include "core/instrument/instrument.hpp"
#include "core/units/cents.hpp"
#include "core/units/frames.hpp"
#include "core/workflow/player_speed.hpp"
#include "core/workflow/step.hpp"

#include <cstddef>
#include <map>
#include <set>
#include <vector>

namespace quillbench {

/// What is going to be played.
struct Programme {
    std::vector<std::size_t> keys;   ///< that occur; empty: all
    std::vector<std::size_t> choirs; ///< that are drawn; empty: all
    int position = 0;                ///< of the keyboard
};

/// One string worth the hammer.
struct RankedString {
    StringId string;
    Cents move;       ///< to its place; + is up
    double gain = 0;  ///< how much less sounds wrong, of all that does, 0 … 1
    Seconds until{0}; ///< when it is done, from now
};

/// What can be done in the time there is.
struct UseOfMinutes {
    std::vector<RankedString>
        strings;       ///< in order; whoever stops after any of them has made nothing worse
    double before = 0; ///< how much sounds wrong now, in weighted intervals
    double after = 0;  ///< when the list is done
    std::vector<std::size_t>
        choirsOff;                 ///< better left off: a string of theirs that is needed is broken
    std::vector<StringId> missing; ///< broken, and no other choir takes their place
};

/// The strings that gain most a second, one after the other, at this player's speed, for as long as there is time. What
/// sounds wrong is the beat that each interval of the programme makes beside what the temperament wants of it
/// (unisons and octaves of choirs that sound together, octaves, fifths and thirds of keys), none below a tenth of a
/// beat, saturating about a beat a second: faster than that is wrong, however fast.
/// **Range** deviations from target, of every string of the choirs drawn; a string not in it counts as in tune.
[[nodiscard]] UseOfMinutes bestUse(Seconds available,
                                   const Instrument& instrument,
                                   const FactsOfString& factsOf,
                                   const std::map<StringId, Cents>& deviations,
                                   const Programme& programme,
                                   const PlayerSpeed& speed,
                                   const std::set<StringId>& broken = {});

/// How much sounds wrong of a programme with these deviations; 0: nothing.
[[nodiscard]] double soundsWrong(const Instrument& instrument,
                                 const FactsOfString& factsOf,
                                 const std::map<StringId, Cents>& deviations,
                                 const Programme& programme);

} // namespace quillbench
