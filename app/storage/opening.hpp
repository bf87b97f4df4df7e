#pragma once

#include "app/storage/database.hpp"
#include "app/storage/logbook.hpp"

#include <string>
#include <vector>

namespace quillbench {

struct OpenedLogbook {
    Database database;
    bool writable = true;
    std::vector<std::string> damages;
    std::string trouble;
};

/// What Logbook::open does. **Errors** as there.
[[nodiscard]] Result<OpenedLogbook> openLogbook(const LogbookOpening& opening);

/// What Logbook::merge does. **Errors** as there.
[[nodiscard]] Result<MergeReport> mergeInto(Database& database, const LogbookContents& contents);

/// What Logbook::backUp does: beside the wanted file first, inspected, then renamed. **Errors** as there.
[[nodiscard]] Result<void> copyLogbook(const Database& database, const std::filesystem::path& to);

} // namespace quillbench
