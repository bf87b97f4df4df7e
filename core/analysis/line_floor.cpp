#include "core/analysis/line_floor.hpp"

#include "core/support/contract.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace quillbench {

namespace {

constexpr double kQuantile = 0.25;
constexpr double kToMean = 1.0 / 0.28768; // −ln(1 − 0.25) of an exponential distribution of mean 1

/// Knots are this far apart, and look this far around.
constexpr double kFirstKnotHz = 30.0;
constexpr double kLeastStepHz = 30.0;
constexpr double kStepShare = 0.12;
constexpr double kLeastReachHz = 60.0;
constexpr double kReachShare = 0.2;
constexpr std::size_t kFewestBins = 8;

} // namespace

void findLineFloor(std::span<const double> power,
                   double binHz,
                   std::span<double> floor,
                   std::span<double> scratch) {
    EXPECTS(binHz > 0.0 && floor.size() == power.size() && scratch.size() >= power.size());
    const std::size_t bins = power.size();
    const double topHz = static_cast<double>(bins) * binHz;
    double knotHz = kFirstKnotHz;
    double previousHz = 0.0;
    double previous = 0.0;
    std::size_t filled = 0;
    while (filled < bins) {
        const double reach = std::max(kLeastReachHz, knotHz * kReachShare);
        const auto low = static_cast<std::size_t>(std::max(1.0, (knotHz - reach) / binHz));
        const auto high = std::min(bins, static_cast<std::size_t>((knotHz + reach) / binHz) + 1);
        double here = previous;
        if (high > low && high - low >= kFewestBins) {
            const auto around = scratch.first(high - low);
            std::copy(power.begin() + static_cast<std::ptrdiff_t>(low),
                      power.begin() + static_cast<std::ptrdiff_t>(high),
                      around.begin());
            const auto place = around.begin() + static_cast<std::ptrdiff_t>(
                                                    kQuantile * static_cast<double>(around.size()));
            std::nth_element(around.begin(), place, around.end());
            here = *place * kToMean;
        }
        const std::size_t stop =
            knotHz >= topHz ? bins : std::min(bins, static_cast<std::size_t>(knotHz / binHz) + 1);
        for (; filled < stop; ++filled) {
            const double hz = static_cast<double>(filled) * binHz;
            const double part =
                previousHz > 0.0 ? std::clamp((hz - previousHz) / (knotHz - previousHz), 0.0, 1.0)
                                 : 1.0;
            floor[filled] = (1.0 - part) * previous + part * here;
        }
        previousHz = knotHz;
        previous = here;
        knotHz += std::max(kLeastStepHz, knotHz * kStepShare);
    }
}

} // namespace quillbench
