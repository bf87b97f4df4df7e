#pragma once

#include "core/pitch/note.hpp"
#include "core/pitch/reference.hpp"
#include "core/support/result.hpp"
#include "core/temperament/temperament.hpp"
#include "core/units/cents.hpp"
#include "core/units/hertz.hpp"

#include <cstddef>
#include <span>
#include <string>
#include <vector>

namespace quillbench {

/// A note as a string was heard to sound it. **Range** pitch > 0, uncertainty ≥ 0.
struct HeardNote {
    Note note;
    Hertz pitch;
    Cents uncertainty; ///< standard uncertainty
};

/// How far a note set by a careful hand lies from where it was meant: added to the uncertainty of each reading.
/// Common practice, no source.
inline constexpr Cents kHandOfTheTuner{1.0};

/// One fifth of the circle as it was heard.
struct HeardFifth {
    PitchClass lower;
    PitchClass upper;
    Cents tempering; ///< from 3/2; negative is narrow
    Cents uncertainty;
};

/// How well one temperament explains what was heard, at the pitch at which it explains it best.
struct TemperamentMatch {
    const Temperament* temperament = nullptr; ///< of the candidates given
    Hertz a4;                                 ///< its pitch standard, from all twelve notes
    Cents a4Uncertainty;
    Cents distance;            ///< root mean square of the twelve notes from it
    Cents distanceUncertainty; ///< from the readings alone
    double misfit = 0.0;       ///< weighted sum of squares; 11 is usual for the right one
    PitchClass furthest;       ///< the note that fits worst
    Cents furthestBy;          ///< + is sharp
    bool asGoodAsBest =
        false; ///< cannot be told from the best: misfit within 9 of its (three deviations)
    std::vector<Cents> fifthsOff; ///< heard less the temperament's, one for each heard fifth
};

/// What temperament is this?
struct Recognition {
    std::vector<HeardFifth> fifths;        ///< up the circle from E♭, twelve
    std::vector<TemperamentMatch> matches; ///< best first, every candidate of twelve notes
    bool known =
        false; ///< the best one explains what was heard: its misfit has at least a chance of 1 in 1000
};

/// Compares twelve heard notes with temperaments by weighted least squares over the twelve offsets from equal
/// temperament, the pitch standard free. Where a note was heard in several octaves their weighted mean counts.
/// **Range** candidates outlive the result; those that are open chains are left out.
/// **Errors** NothingFound, naming the notes that are missing. **Accuracy** of the fifths: that of the readings; held
/// by the test "a fifth heard is the difference of two readings". **Thread** any; allocates.
/// **Source** weighted least squares; 31.26 is the 99.9 % point of χ² with 11 degrees of freedom (value from memory).
[[nodiscard]] Result<Recognition> recogniseTemperament(std::span<const HeardNote> heard,
                                                       std::span<const Temperament> candidates);

} // namespace quillbench
