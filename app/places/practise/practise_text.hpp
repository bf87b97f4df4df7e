#pragma once

#include "app/places/practise/practise_model.hpp"

#include <QString>

namespace quillbench {

/// "Count", "Which way", "Bring together", "Leave a little".
[[nodiscard]] QString exerciseName(ExerciseKind kind);

/// "unison", "4′ to 8′", "octave", "fifth" …
[[nodiscard]] QString intervalName(PracticeInterval interval);

/// "bass", "tenor", "middle", "treble".
[[nodiscard]] QString registerName(EarRegister earRegister);

/// "C3–G3", or "A3" for two strings of one key.
[[nodiscard]] QString keysOf(const Exercise& exercise);

/// Whose pin is turned: "second 8′, A3". **Range** there is an exercise.
[[nodiscard]] QString pinName(const PractiseModel& model);

/// What to do now, in one or two sentences.
[[nodiscard]] QString practiseSentence(const PractiseModel& model);

/// What came of it: after uncovering; else empty.
[[nodiscard]] QString practiseVerdict(const PractiseModel& model);

/// Where the analysis was not sure and the answer was judged by the strings' own motion; else empty.
[[nodiscard]] QString judgedByText(const PractiseModel& model);

/// Which partials to listen at.
[[nodiscard]] QString listenAt(const PractiseModel& model);

} // namespace quillbench
