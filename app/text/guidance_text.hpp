#pragma once

#include "core/instrument/instrument.hpp"
#include "core/workflow/guidance.hpp"

#include <QString>

namespace quillbench {

/// The one sentence that says what to do now. With `registers` it begins with what is on and off, for the first key
/// of a session.
[[nodiscard]] QString sentenceFor(const Guidance& guidance,
                                  const Session& session,
                                  const Instrument& instrument,
                                  bool registers);

/// Why the last pluck did not count; empty where it did.
[[nodiscard]] QString hearingText(Hearing hearing);

/// "Front 8′ on, everything else off", naming what cannot be silenced on this instrument.
[[nodiscard]] QString registrationText(const Instrument& instrument, std::size_t choir);

/// "at work", "settled", …
[[nodiscard]] QString stateText(StepState state);

} // namespace quillbench
