#pragma once

#include "app/storage/database.hpp"
#include "core/support/result.hpp"

#include <cstdint>
#include <string>
#include <vector>

namespace quillbench {

/// Marks a SQLite file as a logbook (PRAGMA application_id): "QBLB".
inline constexpr std::int64_t kLogbookMark = 0x51424C42;

/// The newest schema; a file says its own in PRAGMA user_version.
[[nodiscard]] std::int64_t newestSchema();

/// Brings a file from its schema to the newest, step by step, each whole or not at all. A step that has once been
/// published is never changed. **Errors** as Database::error.
[[nodiscard]] Result<void> migrate(Database& database);

/// What the newest schema says of itself, one line a table or index: to compare with a file's.
/// **Errors** as Database::error.
[[nodiscard]] Result<std::vector<std::string>> schemaOf(const Database& database);

} // namespace quillbench
