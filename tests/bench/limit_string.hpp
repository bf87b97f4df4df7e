#pragma once

#include "core/support/random.hpp"
#include "tests/core/dsp/plucked_string.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <numbers>
#include <vector>

namespace quillbench::bench {

inline constexpr double kCent = std::numbers::ln2 / 1200.0;
inline constexpr double kHighestHz = 6000.0; // the partials that count
inline constexpr int kMostPartials = 40;

/// A string of one direction of motion whose sustain pitch is known exactly and whose phases obey the model of the
/// bound: a stiff comb that sinks with the energy of its motion.
struct LimitString {
    test::PluckedString string;

    /// Root mean square of the first second.
    [[nodiscard]] double loudness() const {
        double power = 0.0;
        for (int n = 1; n <= string.partials(); ++n) {
            const double fall = 2.0 * string.decay(n);
            power += 0.5 * std::pow(string.amplitude(n), 2.0) * (1.0 - std::exp(-fall)) / fall;
        }
        return std::sqrt(power);
    }

    [[nodiscard]] int countedPartials() const {
        int count = 0;
        while (count < std::min(kMostPartials, string.partials()) &&
               string.partial(count + 1) < kHighestHz) {
            ++count;
        }
        return count;
    }

    /// Cents that partial n gains per unit of ln B while the pitch stays.
    [[nodiscard]] double stiffnessSlope(int n) const {
        const auto part = [this](double k) {
            const double bent = string.inharmonicity * k * k;
            return bent / (1.0 + bent);
        };
        return 0.5 / kCent * (part(n) - part(1));
    }

    /// Cents of partial n's mean frequency above rest for one cent of glide: least-squares slope of ∫S from 0.1 to
    /// 2.5 s, or until the partial has fallen 40 dB.
    [[nodiscard]] double meanPerGlide(int n) const {
        const double end = std::min(2.5, 0.1 + 4.0 * std::numbers::ln10 / 2.0 / string.decay(n));
        const double middle = 0.5 * (0.1 + end);
        double num = 0.0;
        double den = 0.0;
        for (double t = 0.1; t <= end; t += 0.004) {
            num += (t - middle) * string.energyIntegral(t);
            den += (t - middle) * (t - middle);
        }
        return num / den;
    }

    /// Cents of the sustain pitch above rest for one cent of glide: the definition's comb fit.
    [[nodiscard]] double sustainPerGlide() const {
        std::array<double, 5> s{}; // Σw, Σwx, Σwxx, Σwy, Σwxy
        for (int n = 1; n <= countedPartials(); ++n) {
            const double hertz = 0.05 / (string.partial(n) * kCent);
            const double weight = 1.0 / (hertz * hertz + 0.05 * 0.05);
            const double x = stiffnessSlope(n);
            const double y = meanPerGlide(n);
            s[0] += weight;
            s[1] += weight * x;
            s[2] += weight * x * x;
            s[3] += weight * y;
            s[4] += weight * x * y;
        }
        return (s[2] * s[3] - s[1] * s[4]) / (s[0] * s[2] - s[1] * s[1]);
    }

    [[nodiscard]] double sustainHz() const {
        return string.pitchHz * std::exp(string.glideCents * sustainPerGlide() * kCent);
    }
};

/// A plausible string near `hz` with `snrDb` of the first second over white noise.
inline LimitString drawString(double hz, double snrDb, std::uint64_t seed) {
    Random random(seed);
    LimitString drawn;
    test::PluckedString& string = drawn.string;
    string.pitchHz = hz * std::exp2(random.uniform(-0.2, 0.2));
    string.inharmonicity = 1.6e-5 * (1.0 + std::pow(string.pitchHz / 110.0, 1.5));
    string.decayRate = 6.9 / (12.0 * std::pow(40.0 / std::max(string.pitchHz, 40.0), 0.57));
    string.glideCents = random.uniform(0.5, 2.0);
    string.seed = seed + 1000;
    string.after = 2.1;
    string.noise = drawn.loudness() * std::pow(10.0, -snrDb / 20.0);
    return drawn;
}

} // namespace quillbench::bench
