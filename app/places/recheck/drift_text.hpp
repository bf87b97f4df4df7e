#pragma once

#include "app/places/recheck/recheck_model.hpp"

#include <QString>
#include <QStringList>

namespace quillbench {

/// What to do now, in at most three short sentences.
[[nodiscard]] QString recheckSentence(const RecheckModel& model);

/// The parts of the drift, each with its ±, as far as they can be told.
[[nodiscard]] QStringList driftFindings(const RecheckModel& model);

/// Leave it, these strings, or move the pitch and touch only these.
[[nodiscard]] QString adviceText(const RecheckModel& model);

/// What a screen reader says of the picture.
[[nodiscard]] QString describeDrift(const RecheckModel& model);

} // namespace quillbench
