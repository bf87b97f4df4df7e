#pragma once

#include "core/support/result.hpp"

#include <cstdint>
#include <filesystem>
#include <string>
#include <string_view>

namespace quillbench {

inline constexpr std::uintmax_t kLargestTextFile = std::uintmax_t{64} << 20U; ///< bytes

/// The whole of a text file. **Errors** UnreadableInput, naming the file and the reason: missing, a folder,
/// larger than `mostBytes`.
[[nodiscard]] Result<std::string> readTextFile(const std::filesystem::path& path,
                                               std::uintmax_t mostBytes = kLargestTextFile);

/// Writes beside the file and renames over it, so that a crash leaves the old or the new one whole.
/// **Errors** Environment, naming the file and the reason.
[[nodiscard]] Result<void> writeTextFile(const std::filesystem::path& path, std::string_view text);

} // namespace quillbench
