#pragma once

#include "core/support/result.hpp"

#include <filesystem>
#include <string>
#include <string_view>

namespace quillbench {

/// The whole of a text file. **Errors** UnreadableInput, naming the file and the reason: missing, a folder,
/// larger than 64 MiB.
[[nodiscard]] Result<std::string> readTextFile(const std::filesystem::path& path);

/// Writes beside the file and renames over it, so that a crash leaves the old or the new one whole.
/// **Errors** Environment, naming the file and the reason.
[[nodiscard]] Result<void> writeTextFile(const std::filesystem::path& path, std::string_view text);

} // namespace quillbench
