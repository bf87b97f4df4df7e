#pragma once

#include <numbers>

namespace quillbench {

inline constexpr double kTwoPi = 2.0 * std::numbers::pi;
inline constexpr double kCent =
    std::numbers::ln2 / 1200.0; ///< one cent as a ratio less 1, first order
/// Seconds after the pluck between which the sustain pitch is a mean, by its definition.
inline constexpr double kSustainFrom = 0.10;
inline constexpr double kSustainTo = 2.5;

} // namespace quillbench
