#include "core/practise/staircase.hpp"

#include "core/support/contract.hpp"

#include <algorithm>
#include <cmath>

namespace quillbench {

namespace {

/// Steps towards harder, as part of a natural logarithm: 22 %, 13 %, 8 %. Chosen by the simulated learners of the test.
constexpr double kStepsHarder[] = {0.20, 0.12, 0.08};
constexpr double kWeight = 3.0; ///< for 75 %: p/(1 − p)

} // namespace

Staircase::Staircase(const DifficultyScale& scale, double start)
    : easiest_(std::log(scale.easiest)),
      hardest_(std::log(scale.hardest)) {
    EXPECTS(start > 0.0 && scale.easiest > 0.0 && scale.hardest > 0.0);
    logLevel_ = std::log(start);
    hold();
}

double Staircase::level() const {
    return std::exp(logLevel_);
}

void Staircase::answered(bool right) {
    const int now = right ? 1 : -1;
    if (last_ != 0 && now != last_) {
        ++turns_;
    }
    last_ = now;
    const auto size =
        std::min<std::size_t>(static_cast<std::size_t>(turns_) / 2, std::size(kStepsHarder) - 1);
    const double harder = hardest_ > easiest_ ? 1.0 : -1.0;
    logLevel_ += harder * kStepsHarder[size] * (right ? 1.0 : -kWeight);
    hold();
}

void Staircase::hold() {
    logLevel_ = std::clamp(logLevel_, std::min(easiest_, hardest_), std::max(easiest_, hardest_));
}

} // namespace quillbench
