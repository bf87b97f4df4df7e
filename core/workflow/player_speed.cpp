#include "core/workflow/player_speed.hpp"

#include "core/support/median.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

namespace quillbench {

namespace {

/// Strings that the ordinary player counts for.
constexpr double kPriorStrings = 5.0;

} // namespace

PlayerSpeed speedFrom(std::span<const Seconds> perString) {
    PlayerSpeed speed;
    if (perString.empty()) {
        return speed;
    }
    std::vector<double> times;
    times.reserve(perString.size());
    for (const Seconds one : perString) {
        times.push_back(std::log(std::max(one.count(), 1.0)));
    }
    const double count = static_cast<double>(times.size());
    const double ordinary = std::log(speed.toTune.count());
    speed.toTune = Seconds(
        std::exp((count * medianOf(times) + kPriorStrings * ordinary) / (count + kPriorStrings)));
    return speed;
}

} // namespace quillbench
