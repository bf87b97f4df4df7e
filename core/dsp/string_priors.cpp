#include "core/dsp/string_priors.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>

namespace quillbench {

namespace {

struct Point {
    double hz;
    double value;
};

/// Straight lines between points on double-logarithmic paper; constant outside.
template <std::size_t N>
double logInterpolated(const std::array<Point, N>& points, double hz) {
    if (hz <= points.front().hz) {
        return points.front().value;
    }
    for (std::size_t i = 1; i < N; ++i) {
        if (hz <= points[i].hz) {
            const double part =
                std::log(hz / points[i - 1].hz) / std::log(points[i].hz / points[i - 1].hz);
            return points[i - 1].value * std::pow(points[i].value / points[i - 1].value, part);
        }
    }
    return points.back().value;
}

// Geometric middle of an Italian-style 8′ (measured) and French-type stringing (computed).
constexpr std::array<Point, 9> kInharmonicity{{{20, 4.0e-5},
                                               {46, 2.5e-5},
                                               {70, 1.5e-5},
                                               {104, 1.25e-5},
                                               {207, 2.8e-5},
                                               {415, 7.5e-5},
                                               {930, 2.6e-4},
                                               {1400, 4.0e-4},
                                               {2800, 8.0e-4}}};
// Seconds to fall 60 dB.
constexpr std::array<Point, 4> kDecay60{{{20, 14.0}, {40, 12.0}, {1400, 1.6}, {2800, 0.9}}};
constexpr double kNepersOf60Db = 6.907755;

} // namespace

StringPriors stringPriors(double pitchHz, double knownInharmonicity) {
    StringPriors priors{};
    const bool known = knownInharmonicity > 0.0;
    priors.inharmonicity = known ? knownInharmonicity : logInterpolated(kInharmonicity, pitchHz);
    priors.inharmonicityLnSd = known ? 0.4 : 0.5;
    priors.decayRate = kNepersOf60Db / logInterpolated(kDecay60, pitchHz);
    priors.decayLnSd = 0.4;
    priors.glideCents = 1.8 * std::pow(std::clamp(pitchHz, 40.0, 1500.0) / 200.0, 0.2);
    priors.glideLnSd = 0.65;
    return priors;
}

double relativeDecay(int n, double partialHz) {
    return 1.0 + 0.04 * (n - 1) + std::pow(partialHz / 5000.0, 1.6);
}

} // namespace quillbench
