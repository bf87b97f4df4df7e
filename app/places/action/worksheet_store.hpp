#pragma once

#include "app/places/action/worksheet.hpp"
#include "core/support/result.hpp"

#include <QString>
#include <utility>
#include <vector>

namespace quillbench {

/// Where the worksheet of each instrument lies from day to day: one JSON file (schema 1) an instrument.
/// **Thread** any, one at a time.
class WorksheetStore {
public:
    /// Without a folder nothing is kept.
    explicit WorksheetStore(QString folder = {}) : folder_(std::move(folder)) {}

    /// The lines as they were kept; none where there is no sheet. **Errors** UnreadableInput, naming the file: it is
    /// damaged or of a newer version. The file is left as it is then, and nothing is written over it.
    [[nodiscard]] Result<std::vector<WorksheetLine>> read(const QString& instrument);

    /// **Errors** Environment, naming the file.
    [[nodiscard]] Result<void> keep(const QString& instrument,
                                    const std::vector<WorksheetLine>& lines);

    /// The file of one instrument. **Range** instrument not empty.
    [[nodiscard]] QString fileOf(const QString& instrument) const;

private:
    QString folder_;
    QString unreadable_; ///< the instrument whose file could not be read
};

} // namespace quillbench
