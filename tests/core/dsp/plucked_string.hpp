#pragma once

#include "core/support/random.hpp"

#include <cmath>
#include <cstddef>
#include <numbers>
#include <vector>

namespace quillbench::test {

/// A stiff string in closed form: partials n·f0·√(1+B·n²) of one polarisation, amplitudes 1/n under a pluck point,
/// exponential decay, pitch following the energy of the motion [Legge1984]. Noise of a seed.
struct PluckedString {
    double pitchHz = 220.0;
    double inharmonicity = 3e-5;
    double glideCents = 0.0; ///< sharpness at the pluck against the string at rest
    double decayRate = 0.8;  ///< of partial 1, nepers per second
    double noise = 1e-4;     ///< standard deviation
    double rateHz = 48000.0;
    double before = 0.5; ///< seconds of silence (noise) before the pluck
    double after = 2.8;
    double level = 0.1;
    std::uint64_t seed = 1;

    [[nodiscard]] double partial(int n) const {
        const double f0 = pitchHz / std::sqrt(1.0 + inharmonicity);
        return n * f0 * std::sqrt(1.0 + inharmonicity * n * n);
    }

    [[nodiscard]] double decay(int n) const { return decayRate * (1.0 + 0.05 * (n - 1)); }

    [[nodiscard]] double amplitude(int n) const {
        return level * std::sin(0.13 * std::numbers::pi * n) / n;
    }

    [[nodiscard]] int partials() const { return static_cast<int>(6500.0 / pitchHz) + 1; }

    /// ∫ S/S(0) from the pluck to t.
    [[nodiscard]] double energyIntegral(double t) const {
        double sum = 0.0;
        double total = 0.0;
        for (int n = 1; n <= partials(); ++n) {
            const double power = amplitude(n) * amplitude(n);
            total += power;
            sum += power * (1.0 - std::exp(-2.0 * decay(n) * t)) / (2.0 * decay(n));
        }
        return sum / total;
    }

    /// Cents by which the mean over 0.1–2.5 s (least-squares slope of the phase) lies above rest.
    [[nodiscard]] double sustainAboveRest() const {
        double num = 0.0;
        double den = 0.0;
        for (int k = 0; k <= 240; ++k) {
            const double t = 0.1 + 0.01 * k;
            num += (t - 1.3) * energyIntegral(t);
            den += (t - 1.3) * (t - 1.3);
        }
        return glideCents * num / den;
    }

    [[nodiscard]] double sustainHz() const {
        return pitchHz * std::exp2(sustainAboveRest() / 1200.0);
    }

    /// The pluck is at sample before·rate.
    [[nodiscard]] std::vector<float> render() const {
        const auto silent = static_cast<std::size_t>(before * rateHz);
        const auto count = silent + static_cast<std::size_t>(after * rateHz);
        const double bend = glideCents * std::numbers::ln2 / 1200.0;
        Random random(seed);
        std::vector<double> sum(count, 0.0);
        for (double& sample : sum) {
            sample = noise * random.normal();
        }
        const std::vector<double> time = bentTime(count - silent, bend);
        for (int n = 1; n <= partials(); ++n) {
            for (std::size_t i = silent; i < count; ++i) {
                const double t = static_cast<double>(i - silent) / rateHz;
                sum[i] += amplitude(n) * std::exp(-decay(n) * t) *
                          std::sin(2.0 * std::numbers::pi * partial(n) * time[i - silent]);
            }
        }
        return {sum.begin(), sum.end()};
    }

private:
    /// t + bend·∫S. The integral is smooth: every 16th sample is computed, straight lines between.
    [[nodiscard]] std::vector<double> bentTime(std::size_t count, double bend) const {
        std::vector<double> time(count);
        double next = 0.0;
        for (std::size_t i = 0; i < count; i += 16) {
            const double last = next;
            next = energyIntegral(static_cast<double>(i + 16) / rateHz);
            for (std::size_t k = 0; k < 16 && i + k < count; ++k) {
                const double part = static_cast<double>(k) / 16.0;
                time[i + k] = static_cast<double>(i + k) / rateHz +
                              bend * (last * (1.0 - part) + next * part);
            }
        }
        return time;
    }
};

} // namespace quillbench::test
