#pragma once

#include <vector>

namespace quillbench::detail {

/// Mean level of the quietest 80 ms. **Range** at least one frame of kReleaseHop.
[[nodiscard]] double quietest(const std::vector<double>& db);

} // namespace quillbench::detail
