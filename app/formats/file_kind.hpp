#pragma once

#include "core/support/result.hpp"

#include <filesystem>

namespace quillbench {

enum class FileKind {
    Instrument,    ///< JSON
    Temperament,   ///< JSON
    LogbookExport, ///< JSON lines, or a folder of CSV tables
    LogbookFile,   ///< SQLite: the logbook itself or a backup of it
    StringList,    ///< CSV
    Other,         ///< none of ours: a recording perhaps
};

/// What a file is, by what stands in it and not by its name.
/// **Errors** UnreadableInput, one line that names the file: it is missing, cannot be read, is JSON or a folder of
/// another kind.
[[nodiscard]] Result<FileKind> fileKind(const std::filesystem::path& path);

} // namespace quillbench
