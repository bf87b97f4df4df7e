#pragma once

#include "app/models/pictures.hpp"
#include "app/models/tuning_model.hpp"
#include "core/analysis/snapshot.hpp"

namespace quillbench {

/// What the views show of the newest snapshot (null where none is there yet) and of the session with it, as
/// TuningModel::provisional gives it. Pure: the same values give the same pictures. **Range** model.ready().
[[nodiscard]] WiresPicture
wiresPicture(const TuningModel& model, const Session& session, const AnalysisSnapshot* snapshot);

[[nodiscard]] FiguresPicture
figuresPicture(const TuningModel& model, const Session& session, const AnalysisSnapshot* snapshot);

[[nodiscard]] KeyboardPicture
keyboardPicture(const TuningModel& model, const Session& session, const AnalysisSnapshot* snapshot);

/// The key whose string sounds now, if it is known.
[[nodiscard]] std::optional<std::size_t> heardKey(const TuningModel& model,
                                                  const AnalysisSnapshot* snapshot);

[[nodiscard]] LevelPicture levelPicture(const AnalysisSnapshot* snapshot);

} // namespace quillbench
