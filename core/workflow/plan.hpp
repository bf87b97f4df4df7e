#pragma once

#include "core/instrument/instrument.hpp"
#include "core/support/result.hpp"
#include "core/workflow/plan_options.hpp"
#include "core/workflow/step.hpp"

namespace quillbench {

/// The octave above options.bearingsFrom on the reference choir, in the order asked for: by meter, at the keyboard's
/// position. Of the options the tolerance of the bearings, the way to the target and felt count too; the rest is of a
/// whole session.
/// **Range** options.reference < instrument.choirs.size(); position one of instrument.positions.
/// **Errors** BadArgument when the compass lacks one of the ends.
[[nodiscard]] Result<TuningPlan> planFirstOctave(const Instrument& instrument,
                                                 const PlanOptions& options,
                                                 const FactsOfString& factsOf);

} // namespace quillbench
