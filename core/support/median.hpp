#pragma once

#include <vector>

namespace quillbench {

/// The middle of a set of values, or the mean of the two in the middle. **Range** not empty.
[[nodiscard]] double medianOf(std::vector<double> values);

/// Mean of the middle half: a few that stray do not move it. **Range** not empty.
[[nodiscard]] double middleMeanOf(std::vector<double> values);

} // namespace quillbench
