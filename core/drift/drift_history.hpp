#pragma once

#include "core/drift/drift_fit.hpp"
#include "core/drift/drift_rates.hpp"
#include "core/instrument/instrument.hpp"
#include "core/units/cents.hpp"

#include <optional>
#include <span>
#include <vector>

namespace quillbench {

/// One recheck of the past.
struct DriftLook {
    std::vector<Movement> movements;
    std::vector<double> days;      ///< since each string was settled; as many as movements
    std::vector<double> settledOn; ///< the day each was settled, from any fixed one; as many
};

/// What one string tends to do.
struct StringTendency {
    DriftRate rate;
    Habit habit = Habit::Steady;
    std::vector<Cents> own; ///< what it did beside the rest from look to look, oldest first
};

/// What an instrument tends to do.
struct Tendencies {
    std::size_t looks = 0;               ///< that were long enough after settling to count
    std::vector<DriftPart> choirs;       ///< cents a day; as many as the instrument has
    std::vector<StringTendency> strings; ///< of those seen, by string
    std::optional<RetuneDue> due;
};

/// A string looked at sooner than this after it was settled says nothing of its rate, in days.
inline constexpr double kSoonestLook = 0.25;

/// From all rechecks, oldest first. **Range** tolerance > 0; may be empty.
[[nodiscard]] Tendencies
tendenciesOf(const Instrument& instrument, std::span<const DriftLook> looks, Cents tolerance);

} // namespace quillbench
