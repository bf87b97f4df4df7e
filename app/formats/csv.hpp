#pragma once

#include "core/support/result.hpp"

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace quillbench {

/// One record and the line it begins at, counted from 1.
struct CsvRecord {
    std::size_t line = 1;
    std::vector<std::string> cells;
};

/// More than this is refused.
struct CsvLimits {
    std::size_t bytes = std::size_t{4} << 20U;
    std::size_t records = 20000;
};

/// Reads comma separated values. Takes LF as well as CRLF and skips a byte order mark and empty lines.
/// **Range** within the limits, and at most 64 cells a record. **Errors** UnreadableInput, naming the line.
/// **Source** [RFC4180].
[[nodiscard]] Result<std::vector<CsvRecord>> parseCsv(std::string_view text,
                                                      const CsvLimits& limits = {});

/// One record with CRLF; cells with comma, quote or line end are quoted. **Source** [RFC4180] §2.
[[nodiscard]] std::string formatCsvRecord(const std::vector<std::string>& cells);

/// A text as a cell that no spreadsheet takes for a formula: one that begins like a formula gets an apostrophe before
/// it, and back. **Source** OWASP, "CSV Injection" (value from memory).
[[nodiscard]] std::string harmlessCell(const std::string& text);
[[nodiscard]] std::string textOfCell(const std::string& cell);

} // namespace quillbench
