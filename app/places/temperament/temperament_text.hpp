#pragma once

#include "app/places/temperament/temperament_model.hpp"
#include "app/places/temperament/temperament_pictures.hpp"
#include "core/temperament/bearings.hpp"

#include <QString>
#include <QStringList>

namespace quillbench {

/// "C♯".
[[nodiscard]] QString pitchClassText(PitchClass note);

/// "−1/6 P", "pure", "+5/12 P −1/4 S", "392/393", "−5.4 ct": P the Pythagorean comma, S the syntonic.
[[nodiscard]] QString fractionText(const Tempering& tempering);

[[nodiscard]] CirclePicture circlePicture(const TemperamentModel& model);

/// Major or minor thirds; beats are told for the thirds from F3 to E4.
[[nodiscard]] ThirdsPicture thirdsPicture(const TemperamentModel& model, bool major);

/// Where a temperament comes from, how far that was checked, and what scholars disagree on: paragraphs of plain text.
[[nodiscard]] QStringList aboutText(const TemperamentDescription& about);

/// One step of a bearing plan as a sentence.
[[nodiscard]] QString bearingText(const BearingStep& step);

/// "−0.8", "+7.1", "0": beats a second with their sense.
[[nodiscard]] QString signedBeats(BeatRate beat);

/// What was recognised: one or more lines of plain text, the verdict first.
[[nodiscard]] QStringList recognitionText(const Recognition& recognition);

/// "Vallotti (about 1728)".
[[nodiscard]] QString temperamentTitle(const TemperamentDescription& about);

} // namespace quillbench
