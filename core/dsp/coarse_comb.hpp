#pragma once

#include "core/dsp/fft.hpp"
#include "core/dsp/stiff_comb.hpp"

#include <array>
#include <complex>
#include <cstddef>
#include <span>
#include <vector>

namespace quillbench {

/// Where the string lies, to within a fraction of a bin: the comb whose partials stand highest above the
/// floor around them.
struct CoarseComb {
    StiffComb comb;
    double prominence =
        0; ///< mean of ln(1 + power / 8·floor) over the partials; under about 1: nothing
};

struct CoarseSearch {
    double targetHz = 0; ///< of partial 1
    double rangeCents = 60;
    double inharmonicity = 0; ///< most likely B, > 0
    int skipMultiples = 0; ///< partials whose number is a multiple of this are left out; 0 for none
};

/// **Real-time** allocates only in the constructor.
/// **Source** harmonic sum with logarithmic compression, after [Schroeder1968] and [Noll1969].
class CoarseCombFinder {
public:
    /// **Range** longest in samples ≥ 64.
    CoarseCombFinder(double rateHz, std::size_t longest);

    /// Searches `samples` (64 up to the longest). What sounded already in `before` (hum, strings that ring; may
    /// be empty) is taken off.
    [[nodiscard]] CoarseComb find(std::span<const double> samples,
                                  std::span<const double> before,
                                  const CoarseSearch& search);

private:
    RealFft& fftFor(std::size_t count);
    void spectrumOf(std::span<const double> samples, std::size_t size, std::vector<double>& power);
    void takeOff(std::span<const double> before, std::size_t size);

    double rateHz_;
    std::vector<RealFft> ffts_; // sizes 2^kSmallest, doubling
    std::vector<double> padded_;
    std::vector<std::complex<double>> spectrum_;
    std::vector<double> power_;
    std::vector<double> old_; // power before
    std::vector<double> sorted_;
};

} // namespace quillbench
