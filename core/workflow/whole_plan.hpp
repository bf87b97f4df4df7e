#pragma once

#include "core/support/result.hpp"
#include "core/temperament/bearings.hpp"
#include "core/temperament/temperament.hpp"
#include "core/workflow/plan.hpp"

namespace quillbench {

/// The whole session on this instrument. A string that the keyboard does not reach at the position is set at
/// another one that does. No step relies on a string that no step before it sets; each string of the choirs to be
/// tuned has exactly one step Set; at the pin nothing is wider than an octave of natural keys.
/// **Range** instrument as from a file or the examples; factsOf for every string of it.
/// **Errors** BadArgument naming the option: a choir that is not there or has no row of jacks, a position that is not
/// there, a bearing plan that does not belong to the temperament.
[[nodiscard]] Result<TuningPlan> planSession(const Instrument& instrument,
                                             const TunedScale& scale,
                                             const PlanOptions& options,
                                             const FactsOfString& factsOf);

/// What is known of a string of this instrument at a pitch: from its make.
[[nodiscard]] StringFacts factsAt(const StringMake& make, Hertz target);

/// factsAt for every string, the scale standing at `position`. **Range** both references outlive the result.
[[nodiscard]] FactsOfString
factsFor(const Instrument& instrument, const TunedScale& scale, int position = 0);

} // namespace quillbench
