#pragma once

#include "core/instrument/instrument.hpp"
#include "core/workflow/session.hpp"

#include <QString>

namespace quillbench {

/// "Back 8′ and 4′ on, everything else off, manuals coupled; felt between the strings of the second 8′".
[[nodiscard]] QString drawingText(const Instrument& instrument, const Drawing& drawing);

/// "F3 with C4: a fifth, narrow, about 1.2 beats a second"; "A3, both 8′ together: no beat".
[[nodiscard]] QString pairText(const Instrument& instrument, const TuningStep& step);

/// What the interval is called: "fifth".
[[nodiscard]] QString intervalText(IntervalKind kind);

/// "no beat", "wide, about 7 beats a second", "slightly narrow, just under one beat a second".
[[nodiscard]] QString beatText(BeatRate beat);

/// What a sweep is for, with the string to play next.
[[nodiscard]] QString
sweepText(const Instrument& instrument, const Session& session, std::size_t step);

/// "bearings", "second 8′", …
[[nodiscard]] QString phaseText(Phase phase);

} // namespace quillbench
