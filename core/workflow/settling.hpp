#pragma once

#include "core/units/cents.hpp"
#include "core/units/frames.hpp"

#include <span>

namespace quillbench {

/// One pluck of a string as the session remembers it.
struct Mark {
    Cents deviation;
    Cents uncertainty;           ///< one standard deviation, the clock's included
    Seconds at{0};               ///< since the source started
    bool good = true;            ///< sure enough to be counted
    bool signKnown = true;       ///< false: a beat whose direction is not known
    bool ofPair = false;         ///< heard as a beat: its error is another than of the string alone
    bool referenceHeard = false; ///< ofPair: against a string that was heard alone
};

/// Marks nearer to each other than this are of one pluck.
inline constexpr Seconds kOnePluck{0.5};

/// How many plucks in a row must agree.
inline constexpr std::size_t kPlucksToSettle = 3;

/// Whether the last mark alone lies inside the tolerance.
[[nodiscard]] bool insideTolerance(const Mark& mark, Cents tolerance);

/// Whether the string stands still inside its tolerance: over the last three plucks, all good, each inside the
/// tolerance, their mean inside it by one standard deviation more (not divided by √3: glide and clock are common to
/// all three), and the last no further from the first than 0.5 cent or twice what their uncertainty explains.
/// **Range** tolerance > 0.
[[nodiscard]] bool hasSettled(std::span<const Mark> marks, Cents tolerance);

/// The three plucks of a string that has settled, as one mark: their mean weighted by certainty, with the least of
/// their uncertainties (what is common to them does not average away), at the last. **Range** hasSettled(marks).
[[nodiscard]] Mark settledMark(std::span<const Mark> marks);

} // namespace quillbench
