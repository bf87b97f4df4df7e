#pragma once

#include "core/support/result.hpp"

#include <QString>
#include <QStringList>
#include <set>
#include <vector>

class QPagedPaintDevice;

namespace quillbench {

/// A table of a report; its head stands again on every page.
struct ReportTable {
    QString title; ///< empty: none
    QStringList columns;
    std::vector<QStringList> rows;
    std::set<int> numbers; ///< columns that stand to the right
};

/// A printed document of words and tables, as many pages as it needs.
struct Report {
    QString title;
    QStringList facts; ///< a line each, under the title
    std::vector<ReportTable> tables;
    QStringList notes; ///< a paragraph each, at the end
};

/// Words of a cell that are not broken: a row of two lines would be torn apart at the foot of a page.
[[nodiscard]] QString onOneLine(QString words);

/// As HTML: what people wrote is escaped.
[[nodiscard]] QString reportHtml(const Report& report);

/// As app/print/pages has it. **Errors** Environment.
[[nodiscard]] Result<void> paintReport(const Report& report, QPagedPaintDevice& device);

} // namespace quillbench
