#include "core/dsp/stagger/ring_whitener.hpp"

#include "core/support/contract.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace quillbench {

namespace {

double product(std::span<const double> a, std::span<const double> b) {
    double sum = 0.0;
    for (std::size_t i = 0; i < a.size(); ++i) {
        sum += a[i] * b[i];
    }
    return sum;
}

/// The stretch under a Hann window, of unit energy; empty where it is silent.
std::vector<double> windowed(std::span<const double> ring) {
    std::vector<double> out(ring.begin(), ring.end());
    for (std::size_t i = 0; i < out.size(); ++i) {
        const double phase = 2.0 * std::numbers::pi * (static_cast<double>(i) + 0.5) /
                             static_cast<double>(out.size());
        out[i] *= 0.5 - 0.5 * std::cos(phase);
    }
    const double energy = product(out, out);
    if (energy <= 0.0) {
        return {};
    }
    for (double& x : out) {
        x /= std::sqrt(energy);
    }
    return out;
}

/// Levinson's recursion: the prediction error filter of a process with this autocorrelation.
std::vector<double> predictionErrorFilter(const std::vector<double>& correlation) {
    std::vector<double> taps(correlation.size(), 0.0);
    taps[0] = 1.0;
    double error = correlation[0];
    std::vector<double> next(taps);
    for (std::size_t m = 1; m < correlation.size(); ++m) {
        double miss = 0.0;
        for (std::size_t k = 0; k < m; ++k) {
            miss += taps[k] * correlation[m - k];
        }
        const double reflection = -miss / error;
        next = taps;
        for (std::size_t k = 1; k <= m; ++k) {
            next[k] = taps[k] + reflection * taps[m - k];
        }
        taps = next;
        error *= 1.0 - reflection * reflection;
    }
    return taps;
}

} // namespace

RingWhitener::RingWhitener(std::span<const std::span<const double>> ring,
                           std::size_t order,
                           double loading) {
    EXPECTS(order >= 1 && loading > 0.0);
    std::vector<double> correlation(order + 1, 0.0);
    for (const std::span<const double> stretch : ring) {
        const std::vector<double> wave =
            stretch.size() > order ? windowed(stretch) : std::vector<double>();
        const std::span<const double> all(wave);
        for (std::size_t lag = 0; lag < correlation.size() && lag < all.size(); ++lag) {
            correlation[lag] += product(all.subspan(lag), all.first(all.size() - lag));
        }
    }
    EXPECTS(correlation[0] > 0.0);
    correlation[0] *= 1.0 + loading;
    taps_ = predictionErrorFilter(correlation);
}

std::vector<double> RingWhitener::apply(std::span<const double> sound) const {
    std::vector<double> out(sound.size(), 0.0);
    for (std::size_t k = 0; k < taps_.size() && k < sound.size(); ++k) {
        const double tap = taps_[k];
        for (std::size_t i = k; i < sound.size(); ++i) {
            out[i] += tap * sound[i - k];
        }
    }
    return out;
}

} // namespace quillbench
