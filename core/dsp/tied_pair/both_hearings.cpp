#include "core/dsp/constants.hpp"
#include "core/dsp/tied_pair/tied_pair.hpp"
#include "core/support/contract.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <iterator>

namespace quillbench {

namespace {

/// Weights of peaks are too sure of themselves: their logarithms count an eighth.
constexpr double kTemper = 8.0;
/// So is every peak's own deviation.
constexpr double kWider = 2.0;
constexpr double kLeastHz = 0.005;
constexpr double kLeastBothCents = 0.03;
constexpr double kTails = 4.0; ///< degrees of freedom
constexpr double kReachSpreads = 8.0;
constexpr int kPointsEach = 161;

struct Peak {
    double beat;
    double spread;
    double lnWeight;

    [[nodiscard]] double logAt(double x) const {
        const double off = (x - beat) / spread;
        return lnWeight - std::log(spread) - 0.5 * (kTails + 1.0) * std::log1p(off * off / kTails);
    }
};

/// Where the posterior is looked at: densely about every peak.
std::vector<double> pointsAbout(const std::vector<Peak>& peaks, const Peak& other) {
    std::vector<double> points;
    points.reserve((peaks.size() + 1) * kPointsEach);
    const auto add = [&points](const Peak& peak) {
        for (int i = 0; i < kPointsEach; ++i) {
            const double share = 2.0 * i / (kPointsEach - 1) - 1.0;
            points.push_back(peak.beat + kReachSpreads * share * peak.spread);
        }
    };
    std::for_each(peaks.begin(), peaks.end(), add);
    add(other);
    std::sort(points.begin(), points.end());
    return points;
}

/// The place below which a share of a distribution lies; `below` rises from 0 to its last value.
double placeOf(const std::vector<double>& points, const std::vector<double>& below, double share) {
    const double wanted = share * below.back();
    const auto after = std::lower_bound(below.begin(), below.end(), wanted);
    const auto i = static_cast<std::size_t>(std::distance(below.begin(), after));
    if (i == 0) {
        return points.front();
    }
    const double step = below[i] - below[i - 1];
    const double part = step > 0.0 ? (wanted - below[i - 1]) / step : 0.0;
    return points[i - 1] + part * (points[i] - points[i - 1]);
}

} // namespace

BothHearings
bothHearings(std::span<const TiedOptimum> optima, double heard, double doubt, double hz) {
    EXPECTS(!optima.empty() && doubt > 0.0);
    std::vector<Peak> peaks;
    for (const TiedOptimum& one : optima) {
        const double spread =
            std::hypot(kWider * one.deviation, kLeastBothCents * kCent * hz, kLeastHz);
        peaks.push_back({one.beat, spread, (one.lnWeight - optima.front().lnWeight) / kTemper});
    }
    const Peak other{heard, doubt, 0.0};
    const std::vector<double> points = pointsAbout(peaks, other);
    std::vector<double> logs;
    logs.reserve(points.size());
    for (const double x : points) {
        double sum = 0.0;
        for (const Peak& peak : peaks) {
            sum += std::exp(peak.logAt(x));
        }
        logs.push_back(std::log(sum) + other.logAt(x));
    }
    const double most = *std::max_element(logs.begin(), logs.end());
    std::vector<double> below{0.0};
    below.reserve(points.size());
    for (std::size_t i = 1; i < points.size(); ++i) {
        const double mean = 0.5 * (std::exp(logs[i] - most) + std::exp(logs[i - 1] - most));
        below.push_back(below.back() + mean * (points[i] - points[i - 1]));
    }
    const double low = placeOf(points, below, 0.16);
    const double high = placeOf(points, below, 0.84);
    return {placeOf(points, below, 0.5), std::max(0.5 * (high - low), 0.6 * kLeastHz)};
}

} // namespace quillbench
