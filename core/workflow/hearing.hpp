#pragma once

#include "core/workflow/session.hpp"

namespace quillbench::detail {

/// What a finished reading of one string changes: the step it belongs to becomes the current one, its mark is added, and
/// the string settles, is opened again or is said to be another than the one asked for.
void hear(Session& session, const Heard& heard);

/// The same of two strings that sounded together.
void hearPair(Session& session, const HeardPair& heard);

/// Undo goes back to before this.
void decide(Session& session, StepProgress& progress, StepState state);

/// The player is at this step from now on; what the guard knew of the pin is forgotten. **Range** step exists.
void moveTo(Session& session, std::size_t step);

/// The string of a step was left where `progress.kept` says: what is tuned to it next is aimed at that.
/// **Range** progress.kept has a value.
void rememberKept(Session& session, const TuningStep& step, const StepProgress& progress);

} // namespace quillbench::detail
