#include "core/instrument/sustain.hpp"

#include "core/support/contract.hpp"

#include <algorithm>
#include <cmath>

namespace quillbench {

double sixtyDecibelsPerSecond(Hertz string, Hertz partial) {
    EXPECTS(string.value() > 0.0 && partial.value() > 0.0);
    const double whole = std::clamp(9.0 * std::sqrt(50.0 / string.value()), 0.5, 12.0);
    const double treble = 12'000.0 * std::pow(100.0 / string.value(), 0.15);
    return 1.0 / whole + partial.value() / treble;
}

Seconds heardFor(Hertz string, Hertz partial) {
    constexpr double kHeardOfSixty = 40.0 / 60.0;
    return Seconds(kHeardOfSixty / sixtyDecibelsPerSecond(string, partial));
}

} // namespace quillbench
