#pragma once

#include <filesystem>
#include <string>

namespace quillbench {

/// All bytes of a file; none where it is not there or cannot be read.
[[nodiscard]] std::string bytesOf(const std::filesystem::path& path);

} // namespace quillbench
