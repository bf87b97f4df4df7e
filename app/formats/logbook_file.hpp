#pragma once

#include "core/logbook/records.hpp"
#include "core/support/result.hpp"

#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace quillbench {

/// The only schema number of exported logbooks that is written; newer ones are refused.
inline constexpr int kLogbookExportSchema = 1;

/// The whole logbook as JSON, one object a line: first `"kind":"logbook"`, then every row as `row` with its
/// table as `kind`.
/// Instants are universal time with the offset of the clock on the wall beside it.
[[nodiscard]] std::string formatLogbook(const LogbookContents& contents);

/// Reads what formatLogbook wrote: the same contents to the last bit. **Errors** UnreadableInput naming line, field,
/// value and how to mend it: a newer schema, an unknown kind, a field missing or of another kind. Never throws.
[[nodiscard]] Result<LogbookContents> parseLogbook(std::string_view text);

/// A file's name and its text.
using NamedText = std::pair<std::string, std::string>;

/// The whole logbook as comma separated values, a file a table ("reading.csv"), the schema number in each row; and
/// "overview.csv": the readings that hold, for people. A text that a spreadsheet would take for a formula gets an
/// apostrophe before it. **Source** [RFC4180].
[[nodiscard]] std::vector<NamedText> formatLogbookCsv(const LogbookContents& contents);

/// Reads the tables that formatLogbookCsv wrote; a file that is missing is an empty table, others are let alone.
/// **Errors** as parseLogbook, naming the file too.
[[nodiscard]] Result<LogbookContents> parseLogbookCsv(const std::vector<NamedText>& files);

} // namespace quillbench
