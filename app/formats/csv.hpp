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

/// Reads comma separated values. Takes LF as well as CRLF and skips a byte order mark and empty lines.
/// **Range** at most 4 MiB and 20 000 records of 64 cells. **Errors** UnreadableInput, naming the line.
/// **Source** [RFC4180].
[[nodiscard]] Result<std::vector<CsvRecord>> parseCsv(std::string_view text);

/// One record with CRLF; cells with comma, quote or line end are quoted. **Source** [RFC4180] §2.
[[nodiscard]] std::string formatCsvRecord(const std::vector<std::string>& cells);

} // namespace quillbench
