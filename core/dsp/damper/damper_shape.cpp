#include "core/dsp/damper/damper_shape.hpp"

#include <cmath>
#include <numbers>

namespace quillbench {

double dampedAmplitude(double late, double decay60) {
    if (late <= 0.0) {
        return 1.0;
    }
    const double held =
        late < kDamperGrip ? late * late / (2.0 * kDamperGrip) : late - kDamperGrip / 2.0;
    return std::exp(-6.91 / decay60 * held);
}

std::vector<double> hannOfUnitSum(std::size_t count) {
    std::vector<double> window(count);
    double sum = 0.0;
    for (std::size_t i = 0; i < count; ++i) {
        window[i] = 0.5 - 0.5 * std::cos(2.0 * std::numbers::pi * (static_cast<double>(i) + 1.0) /
                                         static_cast<double>(count + 1));
        sum += window[i];
    }
    for (double& w : window) {
        w /= sum;
    }
    return window;
}

} // namespace quillbench
