#pragma once

#include <span>

namespace quillbench {

/// Mean power of the noise under the lines of a spectrum: at a row of knots the 25th percentile of the bins around
/// (lines fill less than half of them at 20 Hz spacing), scaled to the mean of exponentially distributed noise;
/// straight between the knots.
/// **Range** scratch.size() ≥ power.size() == floor.size(); binHz > 0. No allocation.
/// **Accuracy** within 2.5 dB on white noise (line_floor_test "the floor of noise is its mean").
void findLineFloor(std::span<const double> power,
                   double binHz,
                   std::span<double> floor,
                   std::span<double> scratch);

} // namespace quillbench
