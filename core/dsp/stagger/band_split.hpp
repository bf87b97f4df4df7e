#pragma once

#include <span>
#include <vector>

namespace quillbench {

/// Splits a sound into neighbouring bands without delay (linear-phase filters of 4 ms, centred); the bands add
/// up to the sound below the last edge. **Range** edges ascending, in hertz, below half the rate.
/// **Source** windowed-sinc design with Hann's window [Harris1978].
[[nodiscard]] std::vector<std::vector<double>>
splitBands(std::span<const double> sound, double rateHz, std::span<const double> edgesHz);

} // namespace quillbench
