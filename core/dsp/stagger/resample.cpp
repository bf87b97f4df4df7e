#include "core/dsp/stagger/resample.hpp"

#include "core/support/contract.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <numbers>

namespace quillbench {

namespace {

constexpr int kZeroCrossings = 24; // on either side
constexpr int kSteps = 512;        // of the table, for each zero crossing
constexpr double kKaiserBeta = 7.0;
constexpr double kCutoff = 0.45; // of the lower rate

/// Modified Bessel function of the first kind, order 0, by its power series.
double besselI0(double x) {
    double term = 1.0;
    double sum = 1.0;
    for (int k = 1; k < 40; ++k) {
        term *= (x / 2.0 / k) * (x / 2.0 / k);
        sum += term;
    }
    return sum;
}

using Table = std::array<double, kZeroCrossings * kSteps + 2>;

Table sincTable() {
    Table table{};
    for (std::size_t i = 0; i < table.size(); ++i) {
        const double x = static_cast<double>(i) / kSteps;
        const double inside = std::max(0.0, 1.0 - std::pow(x / kZeroCrossings, 2.0));
        const double angle = std::numbers::pi * x;
        const double sinc = i == 0 ? 1.0 : std::sin(angle) / angle;
        table[i] = sinc * besselI0(kKaiserBeta * std::sqrt(inside)) / besselI0(kKaiserBeta);
    }
    return table;
}

} // namespace

std::vector<double> resample(std::span<const float> samples, double fromHz, double toHz) {
    EXPECTS(fromHz >= 8000.0 && fromHz <= 192000.0 && toHz >= 8000.0 && toHz <= 192000.0);
    static const Table table = sincTable();
    // Two zero crossings of the sinc lie 1/(2·cutoff) apart.
    const double crossings = 2.0 * kCutoff * std::min(fromHz, toHz) / fromHz; // an input sample
    const double reach = kZeroCrossings / crossings;
    const auto count =
        static_cast<std::size_t>(static_cast<double>(samples.size()) * toHz / fromHz);
    std::vector<double> out(count, 0.0);
    const auto last = static_cast<std::int64_t>(samples.size()) - 1;
    for (std::size_t i = 0; i < count; ++i) {
        const double centre = static_cast<double>(i) * fromHz / toHz;
        const auto first = std::max<std::int64_t>(static_cast<std::int64_t>(centre - reach) + 1, 0);
        const auto end = std::min<std::int64_t>(static_cast<std::int64_t>(centre + reach), last);
        double sum = 0.0;
        for (std::int64_t k = first; k <= end; ++k) {
            const double place =
                std::abs(static_cast<double>(k) - centre) * crossings * static_cast<double>(kSteps);
            const auto at = static_cast<std::size_t>(place);
            if (at + 1 >= table.size()) {
                continue;
            }
            const double part = place - static_cast<double>(at);
            const double weight = table[at] + part * (table[at + 1] - table[at]);
            sum += weight * static_cast<double>(samples[static_cast<std::size_t>(k)]);
        }
        out[i] = sum * crossings;
    }
    return out;
}

} // namespace quillbench
