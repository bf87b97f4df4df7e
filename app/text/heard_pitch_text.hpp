#pragma once

#include "audio/pitch_listener.hpp"
#include "core/temperament/heard_standard.hpp"

#include <QString>

namespace quillbench {

/// How the listening stands; `noA`: what was heard first is no A.
[[nodiscard]] QString hearingText(const PitchHearing& hearing, bool noA);

/// "441.30 Hz ± 0.3 cents".
[[nodiscard]] QString heardFigure(const HeardStandard& heard);

/// Of which notes.
[[nodiscard]] QString heardNotes(const HeardStandard& heard);

/// How it lies from the session's standard, with a caution where that would have to be raised.
[[nodiscard]] QString heardAgainst(const HeardStandard& heard, double standardHz);

/// Whether strings would have to rise by more than 10 cents from the session's standard.
[[nodiscard]] bool raisesFar(const HeardStandard& heard, double standardHz);

} // namespace quillbench
