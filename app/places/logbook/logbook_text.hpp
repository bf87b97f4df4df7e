#pragma once

#include "app/formats/logbook_history.hpp"
#include "app/formats/logbook_settling.hpp"
#include "app/places/logbook/logbook_pictures.hpp"
#include "core/drift/drift_history.hpp"
#include "core/logbook/summary.hpp"

#include <QString>
#include <string>

namespace quillbench {

/// "first octave", "recheck"; a kind that this version does not know as it stands.
[[nodiscard]] QString kindText(const std::string& kind);

/// `heard`: strings of a recheck.
[[nodiscard]] SessionLine sessionLine(const SessionSummary& summary,
                                      const SessionInputs& inputs,
                                      const std::string& source,
                                      std::size_t heard);

/// Without where it stood before.
[[nodiscard]] ReadingLine readingLine(const HoldingReading& one);

[[nodiscard]] DiaryLine remarkLine(const RemarkRecord& remark, const QString& string);
[[nodiscard]] DiaryLine climateLine(const ClimateRecord& climate);
[[nodiscard]] DiaryLine changeLine(const StringChangeRecord& change, const QString& string);
[[nodiscard]] DiaryLine calibrationLine(const CalibrationRecord& calibration);

/// "19.5 °C, 52 %".
[[nodiscard]] QString airText(const ClimateRecord& climate);

/// When a retune will be due, or why nobody can tell.
[[nodiscard]] QString dueText(const Tendencies& tendencies);

/// "4′: −1.2 ± 0.3 cents a week".
[[nodiscard]] QString choirDriftText(const Choir& choir, const DriftPart& centsPerDay);

[[nodiscard]] QString habitText(Habit habit);

/// Days since 1970 with their part.
[[nodiscard]] double dayNumberOf(const Instant& at);

/// How replaced strings settle, and which of them are to be brought up again, `today` as dayNumberOf. Empty where none
/// was replaced.
[[nodiscard]] QStringList
newStringsText(const Instrument& instrument, const std::vector<NewString>& strings, double today);

[[nodiscard]] TendencyLine tendencyLine(const Instrument& instrument,
                                        const StringTendency& tendency);

} // namespace quillbench
