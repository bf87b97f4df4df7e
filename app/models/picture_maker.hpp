#pragma once

#include "app/models/pictures.hpp"
#include "app/models/tuning_model.hpp"
#include "core/analysis/snapshot.hpp"

namespace quillbench {

/// What the views show of a session and of the newest snapshot (null where none is there yet). Pure: the same values
/// give the same pictures. **Range** model.ready().
[[nodiscard]] WiresPicture wiresPicture(const TuningModel& model, const AnalysisSnapshot* snapshot);

[[nodiscard]] FiguresPicture figuresPicture(const TuningModel& model,
                                            const AnalysisSnapshot* snapshot);

[[nodiscard]] KeyboardPicture keyboardPicture(const TuningModel& model,
                                              const AnalysisSnapshot* snapshot);

/// The key whose string sounds now, if it is known.
[[nodiscard]] std::optional<std::size_t> heardKey(const TuningModel& model,
                                                  const AnalysisSnapshot* snapshot);

[[nodiscard]] LevelPicture levelPicture(const AnalysisSnapshot* snapshot);

} // namespace quillbench
