#pragma once

#include "app/storage/database.hpp"

#include <string>
#include <vector>

namespace quillbench {

/// Everything that is wrong with a logbook of the newest schema, a line each; empty: every row is there and as it was
/// kept. At most about twenty lines; the last then says that there is more.
/// Looks at the file's structure, the schema, every row's checksum, gaps in the numbers, and references.
[[nodiscard]] std::vector<std::string> inspect(const Database& database);

/// Whether a write-ahead log beside the file is damaged before its end, so that SQLite silently leaves out what
/// follows. **Source** SQLite's file format, "The Write-Ahead Log" (value from memory).
[[nodiscard]] bool writeAheadLogBroken(const std::filesystem::path& logbook);

} // namespace quillbench
