#pragma once

#include "core/pitch/note.hpp"
#include "core/units/cents.hpp"
#include "core/workflow/step.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace quillbench {

enum class StepOrder {
    FromA,     ///< A first, then its neighbours by turns, outward
    Chromatic, ///< upwards
};

/// The order of the strings beyond the bearings.
enum class Outward {
    DownThenUp,
    UpThenDown,
    ByTurns, ///< a key below, a key above
};

/// How near a string has to come. **Source** common practice, no source; examiners of piano tuners hold to about
/// one cent a note (value from memory).
struct Tolerances {
    Cents bearings{1.0};
    Cents extremes{2.0}; ///< at both ends of the compass; in proportion between
    Cents unisons{1.0};  ///< another choir against the first, at the bearings; widens as above
    Cents rough{4.0};    ///< of a rough pass

    bool operator==(const Tolerances&) const = default;
};

/// What the player wants of a session.
struct PlanOptions {
    std::size_t reference = 0;           ///< the choir that is tuned first
    std::vector<std::size_t> leaveAlone; ///< choirs that are not tuned
    int position = 0;                    ///< of the keyboard, one of Instrument::positions
    bool runThrough = true;
    bool warmUp = true;
    bool firstLook = true;
    bool recheck = true;
    std::optional<std::string>
        bearingPlan; ///< none: by meter; "computed" or a published plan's id: by ear
    Note bearingsFrom{{Letter::F, 0},
                      3}; ///< lowest key of the octave; where the compass lacks it, C3
    StepOrder bearingsOrder = StepOrder::FromA; ///< by meter
    Outward outward = Outward::DownThenUp;
    Approach approach = Approach::SettleDown;
    Tolerances tolerances;
    bool feltOnSilenced = false; ///< strings that are set alone: see withFeltOnSilenced()
    std::vector<Cents>
        expectedMove; ///< average of each choir without sign, where a first look told it; may be empty
    Cents roughAbove{10.0}; ///< a choir that has to move by more on average gets a rough pass first
};

} // namespace quillbench
