#pragma once

#include "core/logbook/records.hpp"
#include "core/support/result.hpp"

#include <filesystem>

namespace quillbench {

/// Writes the whole logbook as JSON, one object a line. **Errors** Environment, naming the file.
[[nodiscard]] Result<void> writeLogbookJson(const LogbookContents& contents,
                                            const std::filesystem::path& file);

/// Writes the whole logbook as CSV, a file a table, into a folder that is made where it is missing.
/// **Errors** Environment, naming the file.
[[nodiscard]] Result<void> writeLogbookCsv(const LogbookContents& contents,
                                           const std::filesystem::path& folder);

/// Reads what either of them wrote: a JSON file, or the folder of CSV files. **Errors** UnreadableInput, naming file or
/// folder, field and how to mend it.
[[nodiscard]] Result<LogbookContents> readLogbookExport(const std::filesystem::path& from);

} // namespace quillbench
