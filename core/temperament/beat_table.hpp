#pragma once

#include "core/pitch/interval.hpp"
#include "core/temperament/temperament.hpp"

#include <span>
#include <vector>

namespace quillbench {

/// Faster than this, beats are a roughness that cannot be counted (10 a second are easily heard, 15 at the most
/// [Houtsma1987] demonstration 32).
inline constexpr BeatRate kFastestCountable{10.0};

/// One interval of a tuned keyboard.
struct BeatEntry {
    Note lower;
    Note upper;
    IntervalKind interval = IntervalKind::Unison;
    Cents width;   ///< from pure; negative is narrow
    BeatRate beat; ///< of the lowest pair of partials, + is wide
};

/// The beat of the interval that two keys make. **Range** the keys make an interval of the list.
[[nodiscard]] BeatEntry beatEntry(const TunedScale& scale, const Note& lower, const Note& upper);

/// Every given interval between the keys from `lowest` to `highest`, by interval, then upwards. Keys are named
/// as the temperament spells them. **Range** lowest ≤ highest.
[[nodiscard]] std::vector<BeatEntry> beatTable(const TunedScale& scale,
                                               const Note& lowest,
                                               const Note& highest,
                                               std::span<const IntervalKind> kinds);

/// A third as it is played on the keys.
struct ThirdSize {
    PitchClass lower;
    PitchClass upper;
    bool major = true;
    bool asSpelled =
        true;    ///< false for a diminished fourth or augmented second that stands in for a third
    Cents width; ///< from 5/4 or 6/5; negative is narrow
};

/// Major or minor thirds of all keys, up the chain of fifths: twelve on a circle, else those that the chain
/// spells.
[[nodiscard]] std::vector<ThirdSize> thirdsOf(const Temperament& temperament, bool major);

/// All keys between two notes, upwards, as the temperament spells them; split sharps give two.
[[nodiscard]] std::vector<Note>
keysBetween(const Temperament& temperament, const Note& lowest, const Note& highest);

} // namespace quillbench
