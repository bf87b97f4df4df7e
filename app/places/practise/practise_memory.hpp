#pragma once

#include "app/formats/logbook_history.hpp"
#include "core/logbook/records.hpp"
#include "core/pitch/note.hpp"
#include "core/practise/habits.hpp"
#include "core/practise/progress.hpp"

#include <map>
#include <optional>
#include <vector>

namespace quillbench {

/// An exercise as the logbook keeps it, with the key of its lower string.
[[nodiscard]] PractiseRecord
recordOf(const PracticeTrial& trial, const Note& lowerKey, const Instant& at);

/// A row of the logbook as an exercise, its day by the clock on the wall; nothing where its words are not known to this
/// program.
[[nodiscard]] std::optional<PracticeTrial> trialOf(const PractiseRecord& record);

/// What sessions tuned by ear say of the intervals that are practised.
[[nodiscard]] std::map<PracticeInterval, std::vector<SettingLeft>>
settingsByEar(const std::vector<LeftByEar>& left);

/// All that is known, in the order of their instants.
[[nodiscard]] std::vector<PracticeTrial> trialsOf(std::vector<PractiseRecord> records);

} // namespace quillbench
