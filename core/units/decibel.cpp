#include "core/units/decibel.hpp"

#include "core/support/contract.hpp"

#include <algorithm>
#include <cmath>

namespace quillbench {

Decibel Decibel::fromAmplitude(double amplitude) {
    EXPECTS(amplitude >= 0.0);
    Decibel result;
    result.value_ = std::max(-200.0, 20.0 * std::log10(std::max(amplitude, 1e-12)));
    return result;
}

Decibel Decibel::fromPower(double power) {
    EXPECTS(power >= 0.0);
    Decibel result;
    result.value_ = std::max(-200.0, 10.0 * std::log10(std::max(power, 1e-24)));
    return result;
}

double Decibel::amplitude() const {
    return std::pow(10.0, value_ / 20.0);
}

} // namespace quillbench
