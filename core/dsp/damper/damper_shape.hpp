#pragma once

#include <cstddef>
#include <vector>

namespace quillbench {

inline constexpr double kDamperGrip = 0.006; ///< s until a damper holds fully

/// Amplitude of a string `late` seconds after the damper takes hold, against that of one that rings on; `decay60` in
/// seconds, once it holds fully.
[[nodiscard]] double dampedAmplitude(double late, double decay60);

/// Hann window of unit sum, without its zeros.
[[nodiscard]] std::vector<double> hannOfUnitSum(std::size_t count);

} // namespace quillbench
