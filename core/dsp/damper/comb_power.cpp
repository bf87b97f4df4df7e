#include "core/dsp/damper/comb_power.hpp"

#include "core/dsp/damper/damper_falls.hpp"
#include "core/dsp/damper/damper_shape.hpp"
#include "core/dsp/damper/release_fit.hpp"
#include "core/support/median.hpp"

#include <algorithm>
#include <cmath>
#include <complex>
#include <numbers>
#include <numeric>

namespace quillbench {

namespace {

constexpr double kClearDb = 12.0; // a partial stands above its noise
constexpr std::size_t kFewPartials = 3;

} // namespace

double detail::quietest(const std::vector<double>& db) {
    const auto run = std::min(db.size(), static_cast<std::size_t>(0.08 / detail::kReleaseHop));
    double sum = std::accumulate(db.begin(), db.begin() + static_cast<std::ptrdiff_t>(run), 0.0);
    double least = sum;
    for (std::size_t i = run; i < db.size(); ++i) {
        sum += db[i] - db[i - run];
        least = std::min(least, sum);
    }
    return least / static_cast<double>(run);
}

CombPower
combPower(std::span<const double> sound, double rateHz, double stringHz, double inharmonicity) {
    CombPower out;
    out.hopSeconds = detail::kReleaseHop;
    out.frameSeconds = std::max(1.6 / stringHz, 0.012);
    const auto length = static_cast<std::size_t>(out.frameSeconds * rateHz);
    const auto hop = static_cast<std::size_t>(detail::kReleaseHop * rateHz);
    if (sound.size() < length + hop) {
        return out;
    }
    const std::vector<double> window = hannOfUnitSum(length);
    const std::size_t frames = (sound.size() - length) / hop;
    std::vector<std::vector<double>> powers;
    const double f0 = stringHz / std::sqrt(1.0 + inharmonicity);
    const int most = std::clamp(static_cast<int>(5000.0 / stringHz), 3, 30);
    for (int n = 1; n <= most; ++n) {
        const double hz = n * f0 * std::sqrt(1.0 + inharmonicity * n * n);
        if (hz > 0.45 * rateHz) {
            break;
        }
        std::vector<std::complex<double>> kernel(length);
        for (std::size_t i = 0; i < length; ++i) {
            kernel[i] =
                window[i] *
                std::polar(1.0, -2.0 * std::numbers::pi * hz / rateHz * static_cast<double>(i));
        }
        std::vector<double> power(frames);
        for (std::size_t k = 0; k < frames; ++k) {
            double re = 0.0;
            double im = 0.0;
            for (std::size_t i = 0; i < length; ++i) {
                re += sound[k * hop + i] * kernel[i].real();
                im += sound[k * hop + i] * kernel[i].imag();
            }
            power[k] = re * re + im * im;
        }
        powers.push_back(std::move(power));
    }
    std::vector<double> sum(frames, 0.0);
    std::vector<double> references; // decibels that each partial stands at
    std::vector<std::size_t> clear;
    for (std::size_t n = 0; n < powers.size(); ++n) {
        std::vector<double> sorted(powers[n]);
        std::sort(sorted.begin(), sorted.end());
        references.push_back(detail::toDb(sorted[sorted.size() * 3 / 5]));
        if (references[n] - detail::toDb(sorted[sorted.size() / 20]) > kClearDb) {
            clear.push_back(n);
        }
        for (std::size_t k = 0; k < frames; ++k) {
            sum[k] += powers[n][k];
        }
    }
    out.firstSeconds = static_cast<double>(length) / 2.0 / rateHz;
    out.loudest = static_cast<std::size_t>(std::max_element(sum.begin(), sum.end()) - sum.begin());
    out.loudestDb = detail::toDb(sum[out.loudest]);
    for (std::size_t k = 0; k < frames; ++k) {
        std::vector<double> each;
        each.reserve(clear.size());
        for (const std::size_t n : clear) {
            each.push_back(detail::toDb(powers[n][k]) - references[n]);
        }
        out.sumDb.push_back(detail::toDb(sum[k]) - out.loudestDb);
        out.db.push_back(each.size() < kFewPartials ? out.sumDb[k] : middleMeanOf(each));
    }
    out.floorDb = detail::quietest(out.db);
    out.partials = std::move(powers);
    return out;
}

} // namespace quillbench
