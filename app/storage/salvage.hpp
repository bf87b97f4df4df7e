#pragma once

#include "core/logbook/records.hpp"
#include "core/support/result.hpp"

#include <filesystem>

namespace quillbench {

/// Every row of a damaged logbook that still agrees with its checksum, found byte by byte in the file and in its
/// write-ahead log; no structure of the file is trusted but the size of its pages. In order of their numbers, with
/// gaps where rows are lost. Slow: about a second for 10 MB.
/// **Errors** UnreadableInput: the file cannot be read at all.
/// **Source** SQLite's file format, "Record Format" and "B-tree Pages" (value from memory; held by storage_tests).
[[nodiscard]] Result<LogbookContents> salvage(const std::filesystem::path& logbook);

/// Puts a row that says "lost" wherever another refers to one that is missing, so that no reading is lost for the sake
/// of its session or string.
void fillGaps(LogbookContents& contents);

} // namespace quillbench
