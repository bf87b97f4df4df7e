#include "core/virtual/tuning_pin.hpp"

#include <cmath>

namespace quillbench {

TuningPin::TuningPin(PinBehaviour behaviour, Random random)
    : behaviour_(behaviour),
      random_(random) {
}

void TuningPin::turn(double degrees) {
    head_ += degrees;
    const double slack = 0.5 * behaviour_.backlash;
    double foot = foot_;
    if (head_ - foot_ > slack) {
        foot = head_ - slack;
    } else if (foot_ - head_ > slack) {
        foot = head_ + slack;
    }
    const double moved = foot - foot_;
    foot_ = foot;
    if (behaviour_.slip > 0.0 && std::abs(moved) > 0.0) {
        foot_ += behaviour_.slip * std::sqrt(std::abs(moved)) * random_.normal();
    }
}

void TuningPin::letGo() {
    head_ = foot_;
}

double TuningPin::angle() const {
    return foot_ + behaviour_.springBack * (head_ - foot_);
}

} // namespace quillbench
