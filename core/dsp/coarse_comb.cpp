#include "core/dsp/coarse_comb.hpp"

#include "core/support/contract.hpp"

#include <algorithm>
#include <bit>
#include <cmath>
#include <numbers>

namespace quillbench {

namespace {

constexpr std::size_t kSmallest = 256;
constexpr int kMostPartials = 16;
constexpr double kHighestHz = 5000.0;
constexpr double kCentrePull = 0.15; // log units at the edge of the range
constexpr std::array<double, 5> kStiffnessFactors{0.3, 0.6, 1.0, 1.7, 3.0};

} // namespace

CoarseCombFinder::CoarseCombFinder(double rateHz, std::size_t longest) : rateHz_(rateHz) {
    EXPECTS(longest >= 64);
    const std::size_t largest = std::max(kSmallest, std::bit_ceil(longest * 4));
    for (std::size_t size = kSmallest; size <= largest; size *= 2) {
        ffts_.emplace_back(size);
    }
    padded_.resize(largest);
    spectrum_.resize(largest / 2 + 1);
    power_.resize(largest / 2 + 1);
    old_.resize(largest / 2 + 1);
    sorted_.reserve(largest / 2 + 1);
}

RealFft& CoarseCombFinder::fftFor(std::size_t count) {
    for (RealFft& fft : ffts_) {
        if (fft.size() >= 4 * count) {
            return fft;
        }
    }
    return ffts_.back();
}

/// Power of a steady line of amplitude 1 is 1, whatever the length.
void CoarseCombFinder::spectrumOf(std::span<const double> samples,
                                  std::size_t size,
                                  std::vector<double>& power) {
    for (std::size_t i = 0; i < samples.size(); ++i) {
        const double place = (static_cast<double>(i) + 0.5) / static_cast<double>(samples.size());
        padded_[i] = samples[i] * (0.5 - 0.5 * std::cos(2.0 * std::numbers::pi * place));
    }
    std::fill(padded_.begin() + static_cast<std::ptrdiff_t>(samples.size()),
              padded_.begin() + static_cast<std::ptrdiff_t>(size),
              0.0);
    const auto fft = std::find_if(ffts_.begin(), ffts_.end(), [&](const RealFft& candidate) {
        return candidate.size() == size;
    });
    fft->transform({padded_.data(), size}, {spectrum_.data(), size / 2 + 1});
    const double scale = 4.0 / static_cast<double>(samples.size());
    for (std::size_t k = 0; k <= size / 2; ++k) {
        power[k] = std::norm(spectrum_[k]) * scale * scale;
    }
}

/// A bin keeps what stands above the loudest old bin within a main lobe of it.
void CoarseCombFinder::takeOff(std::span<const double> before, std::size_t size) {
    before = before.last(std::min(before.size(), size / 2));
    spectrumOf(before, size, old_);
    const std::size_t reach = 2 * size / before.size();
    for (std::size_t k = 0; k <= size / 2; ++k) {
        const std::size_t low = k > reach ? k - reach : 0;
        const std::size_t high = std::min(k + reach, size / 2);
        const double loudest =
            *std::max_element(old_.begin() + static_cast<std::ptrdiff_t>(low),
                              old_.begin() + static_cast<std::ptrdiff_t>(high) + 1);
        power_[k] = std::max(power_[k] - 2.0 * loudest, 0.0);
    }
}

CoarseComb CoarseCombFinder::find(std::span<const double> samples,
                                  std::span<const double> before,
                                  const CoarseSearch& search) {
    EXPECTS(samples.size() >= 64 && search.targetHz > 0.0 && search.inharmonicity > 0.0);
    const std::size_t size = fftFor(samples.size()).size();
    samples = samples.first(std::min(samples.size(), size / 4));
    spectrumOf(samples, size, power_);
    const double binHz = rateHz_ / static_cast<double>(size);
    const double top = std::min(kHighestHz, 0.45 * rateHz_);
    const int most = std::clamp(static_cast<int>(top / search.targetHz), 3, kMostPartials);
    std::array<double, kMostPartials> numbers{};
    std::array<double, kMostPartials> floors{};
    std::size_t count = 0;
    for (int n = 1; n <= most; ++n) {
        if ((search.skipMultiples > 0 && n % search.skipMultiples == 0) ||
            (n + 0.5) * search.targetHz > 0.49 * rateHz_) {
            continue;
        }
        const auto low =
            static_cast<std::size_t>(std::max(1.0, (n - 0.5) * search.targetHz / binHz));
        const auto high = static_cast<std::size_t>((n + 0.5) * search.targetHz / binHz) + 2;
        sorted_.assign(power_.begin() + static_cast<std::ptrdiff_t>(low),
                       power_.begin() + static_cast<std::ptrdiff_t>(std::min(high, size / 2 + 1)));
        const auto middle = sorted_.begin() + static_cast<std::ptrdiff_t>(sorted_.size() / 2);
        std::nth_element(sorted_.begin(), middle, sorted_.end());
        numbers[count] = n;
        floors[count] = 8.0 * *middle + 1e-30;
        ++count;
    }
    if (count == 0) {
        return {};
    }
    if (before.size() >= 64) {
        takeOff(before, size);
    }
    const double seconds = static_cast<double>(samples.size()) / rateHz_;
    const double span = std::exp2(search.rangeCents / 1200.0);
    const double step = 0.2 / (seconds * most);
    const int trials = static_cast<int>(search.targetHz * (span - 1.0 / span) / step);
    const bool stiff = most * most * search.inharmonicity > 1e-4;
    CoarseComb best;
    best.prominence = -1.0;
    double bestScore = -1.0;
    for (const double factor : kStiffnessFactors) {
        if (!stiff && std::abs(factor - 1.0) > 0.01) {
            continue;
        }
        const double b = search.inharmonicity * factor;
        std::array<double, kMostPartials> ratios{};
        for (std::size_t i = 0; i < count; ++i) {
            ratios[i] = numbers[i] * std::sqrt((1.0 + b * numbers[i] * numbers[i]) / (1.0 + b));
        }
        for (int trial = 0; trial <= trials; ++trial) {
            const double hz = search.targetHz / span + trial * step;
            double sum = 0.0;
            for (std::size_t i = 0; i < count; ++i) {
                const auto bin = static_cast<std::size_t>(std::lround(ratios[i] * hz / binHz));
                sum += std::log1p(power_[std::min(bin, size / 2)] / floors[i]);
            }
            const double away = 1200.0 * std::log2(hz / search.targetHz) / search.rangeCents;
            const double score = sum - kCentrePull * away * away;
            if (score > bestScore) {
                bestScore = score;
                best.comb = {hz / std::sqrt(1.0 + b), b};
                best.prominence = sum / static_cast<double>(count);
            }
        }
    }
    return best;
}

} // namespace quillbench
