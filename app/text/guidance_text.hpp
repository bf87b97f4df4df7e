#pragma once

#include "core/instrument/instrument.hpp"
#include "core/workflow/guidance.hpp"

#include <QString>

namespace quillbench {

/// What to do now, in at most two short sentences. With `registers` it begins with what is on and off, for the first key
/// of a session; where that changes from one step to the next it is said without being asked for.
[[nodiscard]] QString sentenceFor(const Guidance& guidance,
                                  const Session& session,
                                  const Instrument& instrument,
                                  bool registers);

/// Why the last pluck did not count; empty where it did.
[[nodiscard]] QString hearingText(Hearing hearing);

/// "at work", "settled", …
[[nodiscard]] QString stateText(StepState state);

} // namespace quillbench
