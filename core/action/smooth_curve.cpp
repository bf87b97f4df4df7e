#include "core/action/smooth_curve.hpp"

#include "core/support/contract.hpp"
#include "core/support/median.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace quillbench {

namespace {

constexpr std::size_t kFewestSeen = 9;
constexpr int kRobustRounds = 3;
constexpr double kNormalPerMedian = 1.4826; // of a normal variable: 1 / Φ⁻¹(3/4)
constexpr double kBisquareMedians = 6.0;    // [Cleveland1979]

double tricube(double u) {
    const double v = 1.0 - u * u * u;
    return u < 1.0 ? v * v * v : 0.0;
}

double bisquare(double u) {
    const double v = 1.0 - u * u;
    return std::abs(u) < 1.0 ? v * v : 0.0;
}

/// Value at `at` of the straight line through the neighbours, and how many of them it rests on.
struct LocalLine {
    double value = 0.0;
    double restsOn = 0.0;
};

LocalLine localLine(std::span<const double> x,
                    std::span<const double> y,
                    std::span<const double> trust,
                    double at,
                    double reach) {
    double s0 = 0.0;
    double s1 = 0.0;
    double s2 = 0.0;
    double t0 = 0.0;
    double t1 = 0.0;
    double squares = 0.0;
    for (std::size_t i = 0; i < x.size(); ++i) {
        const double d = x[i] - at;
        const double w = tricube(std::abs(d) / reach) * trust[i];
        s0 += w;
        s1 += w * d;
        s2 += w * d * d;
        t0 += w * y[i];
        t1 += w * d * y[i];
        squares += w * w;
    }
    if (s0 <= 0.0) {
        return {};
    }
    const double determinant = s0 * s2 - s1 * s1;
    const bool sloped = determinant > 1e-9 * s0 * s0 * reach * reach;
    return {sloped ? (s2 * t0 - s1 * t1) / determinant : t0 / s0, s0 * s0 / squares};
}

} // namespace

double normalBelow(double z) {
    return 0.5 * std::erfc(-z / std::numbers::sqrt2);
}

SmoothCurve smoothCurve(std::span<const double> x, std::span<const double> y, double span) {
    EXPECTS(!x.empty() && x.size() == y.size());
    const std::size_t n = x.size();
    const auto wanted = static_cast<std::size_t>(std::ceil(span * static_cast<double>(n)));
    const std::size_t seen = std::min(n, std::max(wanted, kFewestSeen));
    std::vector<double> trust(n, 1.0);
    SmoothCurve curve;
    curve.fitted.assign(n, 0.0);
    std::vector<double> distances(n);
    std::vector<double> away(n);
    for (int round = 0; round <= kRobustRounds; ++round) {
        double restsOn = 0.0;
        for (std::size_t i = 0; i < n; ++i) {
            for (std::size_t j = 0; j < n; ++j) {
                distances[j] = std::abs(x[j] - x[i]);
            }
            const auto farthest = distances.begin() + static_cast<std::ptrdiff_t>(seen - 1);
            std::nth_element(distances.begin(), farthest, distances.end());
            const LocalLine line = localLine(x, y, trust, x[i], std::max(*farthest, 0.5) * 1.001);
            curve.fitted[i] = line.value;
            restsOn += line.restsOn;
        }
        curve.degreesOfFreedom = std::max(1.0, restsOn / static_cast<double>(n));
        for (std::size_t i = 0; i < n; ++i) {
            away[i] = std::abs(y[i] - curve.fitted[i]);
        }
        const double median = medianOf(away);
        curve.scale = kNormalPerMedian * median;
        for (std::size_t i = 0; i < n; ++i) {
            trust[i] = median > 0.0 ? bisquare(away[i] / (kBisquareMedians * median)) : 1.0;
        }
    }
    return curve;
}

} // namespace quillbench
