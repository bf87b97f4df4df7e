#pragma once

#include <complex>
#include <span>

namespace quillbench {

/// One decaying line c·exp((−decay + 2πi·offset)·t) in the frames of one partial.
struct DampedLine {
    std::complex<double> amplitude; ///< at the first frame
    double offsetHz = 0;            ///< from the partial's reference frequency
    double decay = 0;               ///< of the amplitude, 1/s
    double offsetSd = 0;            ///< hertz, from the residual; overlapping frames allowed for
    double residual = 0;            ///< mean square of what the line leaves
};

/// Least squares by Gauss–Newton on the line and its derivative, from a start by the mean turn from frame to
/// frame. **Range** at least 3 frames, `hop` seconds apart, three quarters overlapping Hann frames.
/// **Source** damped-line bound [Yao1995]; separable least squares [Golub1973].
[[nodiscard]] DampedLine fitDampedLine(std::span<const std::complex<double>> frames, double hop);

} // namespace quillbench
