#pragma once

#include "core/drift/settling.hpp"

#include <QString>

namespace quillbench {

/// "40 minutes", "6 hours", "3 days", "5 weeks". **Range** days ≥ 0.
[[nodiscard]] QString ageText(double days);

/// How a new string of this instrument sinks, and what that is known from.
[[nodiscard]] QString settlingLawText(const SettlingLaw& law);

/// When a string is to be brought up again, counted from now, and from when on it is left alone.
/// **Range** 0 ≤ lastSet ≤ now: its age in days when it was last set, and now.
[[nodiscard]] QString settlingPlanText(const SettlingLaw& law, double lastSet, double now);

/// How far a string is likely to have sunk since it was last set. **Range** lastSet ≤ now, days.
[[nodiscard]] QString sunkText(const SettlingLaw& law, double lastSet, double now);

} // namespace quillbench
