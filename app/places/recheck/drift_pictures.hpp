#pragma once

#include "app/places/recheck/drift_picture.hpp"
#include "app/places/recheck/recheck_model.hpp"
#include "core/analysis/snapshot.hpp"

namespace quillbench {

/// What the place Recheck shows of its model and of the newest snapshot (null where none is there yet). Pure.
/// **Range** model.entered() or was.
[[nodiscard]] DriftPicture driftPicture(const RecheckModel& model,
                                        const AnalysisSnapshot* snapshot);

[[nodiscard]] DriftWords driftWords(const RecheckModel& model);

} // namespace quillbench
