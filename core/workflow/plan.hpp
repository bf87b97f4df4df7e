#pragma once

#include "core/instrument/instrument.hpp"
#include "core/pitch/note.hpp"
#include "core/support/result.hpp"
#include "core/workflow/step.hpp"

#include <cstddef>

namespace quillbench {

enum class StepOrder {
    FromA,     ///< A first, then its neighbours by turns, outward
    Chromatic, ///< upwards
};

/// The keys from `lowest` to the octave above it on one choir, in the order asked for, the keyboard at `position`.
/// **Range** choir < instrument.choirs.size(); position one of instrument.positions. **Errors** BadArgument when the compass lacks one of the ends.
[[nodiscard]] Result<TuningPlan> planFirstOctave(const Instrument& instrument,
                                                 std::size_t choir,
                                                 Note lowest,
                                                 StepOrder order,
                                                 const FactsOfString& factsOf,
                                                 int position = 0);

} // namespace quillbench
