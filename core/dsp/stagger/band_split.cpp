#include "core/dsp/stagger/band_split.hpp"

#include <cmath>
#include <cstddef>
#include <numbers>

namespace quillbench {

namespace {

constexpr double kFilterSeconds = 0.004;

/// Linear-phase low-pass, 2·half + 1 taps.
std::vector<double> lowPass(double edgeHz, double rateHz, std::ptrdiff_t half) {
    std::vector<double> taps;
    double sum = 0.0;
    for (std::ptrdiff_t k = -half; k <= half; ++k) {
        const double x = 2.0 * edgeHz / rateHz * static_cast<double>(k);
        const double sinc = k == 0 ? 1.0 : std::sin(std::numbers::pi * x) / (std::numbers::pi * x);
        const double place = static_cast<double>(k) / static_cast<double>(half + 1);
        taps.push_back(sinc * (0.5 + 0.5 * std::cos(std::numbers::pi * place)));
        sum += taps.back();
    }
    for (double& tap : taps) {
        tap /= sum;
    }
    return taps;
}

std::vector<double>
filtered(std::span<const double> sound, const std::vector<double>& taps, std::ptrdiff_t half) {
    std::vector<double> out(sound.size(), 0.0);
    const auto count = static_cast<std::ptrdiff_t>(sound.size());
    for (std::ptrdiff_t k = -half; k <= half; ++k) {
        const double tap = taps[static_cast<std::size_t>(k + half)];
        const std::ptrdiff_t first = std::max<std::ptrdiff_t>(0, k);
        const std::ptrdiff_t end = std::min(count, count + k);
        for (std::ptrdiff_t i = first; i < end; ++i) {
            out[static_cast<std::size_t>(i)] += tap * sound[static_cast<std::size_t>(i - k)];
        }
    }
    return out;
}

} // namespace

std::vector<std::vector<double>>
splitBands(std::span<const double> sound, double rateHz, std::span<const double> edgesHz) {
    const std::ptrdiff_t half = std::lround(0.5 * kFilterSeconds * rateHz);
    std::vector<std::vector<double>> bands;
    std::vector<double> below(sound.size(), 0.0);
    for (const double edge : edgesHz) {
        std::vector<double> upTo = filtered(sound, lowPass(edge, rateHz, half), half);
        std::vector<double> band(sound.size());
        for (std::size_t i = 0; i < band.size(); ++i) {
            band[i] = upTo[i] - below[i];
        }
        bands.push_back(std::move(band));
        below = std::move(upTo);
    }
    return bands;
}

} // namespace quillbench
