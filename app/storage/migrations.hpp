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

/// Brings a file from its schema to a later one, step by step, each whole or not at all. A step that has once been
/// published is never changed. **Range** 0 to newestSchema(). **Errors** as Database::error.
[[nodiscard]] Result<void> migrate(Database& database, std::int64_t schema = newestSchema());

/// What a file says of its tables, one line a table or index. **Errors** as Database::error.
[[nodiscard]] Result<std::vector<std::string>> schemaOf(const Database& database);

/// The schema whose tables a file has, whatever it says of itself; 0: none. **Errors** as Database::error.
[[nodiscard]] Result<std::int64_t> schemaByTables(const Database& database);

} // namespace quillbench
