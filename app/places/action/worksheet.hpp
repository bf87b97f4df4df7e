#pragma once

#include "app/places/action/action_pictures.hpp"
#include "app/print/pages.hpp"
#include "core/support/result.hpp"

#include <QDate>
#include <QString>
#include <vector>

namespace quillbench {

/// A line of the worksheet.
struct WorksheetLine {
    ActionJob job;
    bool done = false;
    QString remark;
    bool earlier = false; ///< found on another day and not again since

    bool operator==(const WorksheetLine&) const = default;
};

/// The jacks to do on one instrument: what was found, what is done, remarks. A finding that goes away is gone unless
/// something was noted about it; one of another day stays until it is done and removed. **Thread** any, one at a time.
class Worksheet {
public:
    [[nodiscard]] const std::vector<WorksheetLine>& lines() const { return lines_; }

    /// Takes what one task (and register) finds now in place of what it found before: its jobs' ids begin with `about`.
    void renew(const QString& about, const std::vector<ActionJob>& jobs);

    void setDone(std::size_t line, bool done);
    void setRemark(std::size_t line, const QString& remark);

    /// Those of another day, in place of all that stand here.
    void takeUp(std::vector<WorksheetLine> lines) { lines_ = std::move(lines); }

    void removeDone();

private:
    std::vector<WorksheetLine> lines_;
};

/// What stands at the head of the printed sheet.
struct WorksheetHead {
    QString instrument;
    QString whole; ///< what the register does
    QDate date;
};

/// How many lines fit on the one page; more are said to be left out.
inline constexpr std::size_t kWorksheetLines = 24;

/// The sheet as one page of A4.
[[nodiscard]] Printout worksheetPrintout(const WorksheetHead& head,
                                         const std::vector<WorksheetLine>& lines);

} // namespace quillbench
