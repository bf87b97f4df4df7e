#include "core/dsp/scatter_mixture.hpp"

#include <algorithm>
#include <cmath>

namespace quillbench {

namespace {

// How common the sizes are before anything is heard.
constexpr ScatterSizes kWanderCommon{0.08, 0.14, 0.22, 0.22, 0.17, 0.10, 0.04, 0.02, 0.01};
constexpr ScatterSizes kOffsetCommon{0.06, 0.12, 0.20, 0.22, 0.19, 0.13, 0.05, 0.02, 0.01};
// One partial against its string: steps along the sizes, and how common they are.
constexpr std::size_t kSizeSteps = 6;
constexpr std::array<double, kSizeSteps> kStepCommon{0.15, 0.48, 0.22, 0.09, 0.04, 0.02};

/// Size `step` places from the string's own; the last sizes stand for all beyond.
std::size_t stepped(std::size_t size, std::size_t step) {
    const std::size_t up = size + step;
    return up == 0 ? 0 : std::min(up - 1, kScatterSizes - 1);
}

/// Likelihood of a partial for each pair of its string's sizes: steps along both summed, one after the other.
ScatterTable underString(const ScatterTable& table) {
    ScatterTable along{};
    ScatterTable both{};
    for (std::size_t w = 0; w < kScatterSizes; ++w) {
        for (std::size_t o = 0; o < kScatterSizes; ++o) {
            for (std::size_t k = 0; k < kSizeSteps; ++k) {
                along[w][o] += kStepCommon[k] * table[w][stepped(o, k)];
            }
        }
    }
    for (std::size_t w = 0; w < kScatterSizes; ++w) {
        for (std::size_t i = 0; i < kSizeSteps; ++i) {
            for (std::size_t o = 0; o < kScatterSizes; ++o) {
                both[w][o] += kStepCommon[i] * along[stepped(w, i)][o];
            }
        }
    }
    for (ScatterSizes& row : both) {
        for (double& value : row) {
            value = std::max(value, 1e-300);
        }
    }
    return both;
}

} // namespace

void ScatterMixture::addTo(Eigen::Matrix3d& a, StringVector& b) const {
    for (std::size_t w = 0; w < kScatterSizes; ++w) {
        double belief = 0.0;
        double precision = 0.0;
        for (std::size_t o = 0; o < kScatterSizes; ++o) {
            belief += share[w][o];
            precision += share[w][o] / variance(w, o);
        }
        const MeanFrequency& own = byWander[w];
        const StringVector row = own.row();
        a += precision * row * row.transpose() + belief * own.fit.a;
        b += precision * own.value * row + belief * own.fit.b;
    }
}

ScatterTable likelihoods(const ScatterMixture& mixture, const StringVector& at) {
    ScatterTable table;
    double best = -1e300;
    for (std::size_t w = 0; w < kScatterSizes; ++w) {
        const MeanFrequency& own = mixture.byWander[w];
        const double fit = own.fit.logLikelihood(at);
        const double off = own.value - own.row().dot(at);
        for (std::size_t o = 0; o < kScatterSizes; ++o) {
            const double variance = mixture.variance(w, o);
            table[w][o] = fit - 0.5 * (std::log(variance) + off * off / variance);
            best = std::max(best, table[w][o]);
        }
    }
    for (ScatterSizes& row : table) {
        for (double& value : row) {
            value = value > best - 60.0 ? std::exp(value - best) : 0.0;
        }
    }
    return table;
}

ScatterTable stringBelief(std::span<const ScatterTable> tables) {
    ScatterTable belief{};
    for (std::size_t w = 0; w < kScatterSizes; ++w) {
        for (std::size_t o = 0; o < kScatterSizes; ++o) {
            belief[w][o] = std::log(kWanderCommon[w] * kOffsetCommon[o]);
        }
    }
    for (const ScatterTable& table : tables) {
        const ScatterTable under = underString(table);
        for (std::size_t w = 0; w < kScatterSizes; ++w) {
            for (std::size_t o = 0; o < kScatterSizes; ++o) {
                belief[w][o] += std::log(under[w][o]);
            }
        }
    }
    double best = -1e300;
    for (const ScatterSizes& row : belief) {
        best = std::max(best, *std::max_element(row.begin(), row.end()));
    }
    double total = 0.0;
    for (ScatterSizes& row : belief) {
        for (double& value : row) {
            value = std::exp(value - best);
            total += value;
        }
    }
    for (ScatterSizes& row : belief) {
        for (double& value : row) {
            value /= total;
        }
    }
    return belief;
}

ScatterTable shareOf(const ScatterTable& likelihood, const ScatterTable& belief) {
    const ScatterTable under = underString(likelihood);
    ScatterTable shares{};
    for (std::size_t w = 0; w < kScatterSizes; ++w) {
        for (std::size_t o = 0; o < kScatterSizes; ++o) {
            if (belief[w][o] < 1e-3) {
                continue;
            }
            const double scale = belief[w][o] / under[w][o];
            for (std::size_t i = 0; i < kSizeSteps; ++i) {
                for (std::size_t k = 0; k < kSizeSteps; ++k) {
                    const std::size_t ww = stepped(w, i);
                    const std::size_t oo = stepped(o, k);
                    shares[ww][oo] += scale * kStepCommon[i] * kStepCommon[k] * likelihood[ww][oo];
                }
            }
        }
    }
    return shares;
}

std::pair<double, double> meanLogs(const ScatterTable& shares) {
    double wander = 0.0;
    double offset = 0.0;
    for (std::size_t w = 0; w < kScatterSizes; ++w) {
        for (std::size_t o = 0; o < kScatterSizes; ++o) {
            wander += shares[w][o] * std::log(kWander[w]);
            offset += shares[w][o] * std::log(kOffset[o]);
        }
    }
    return {wander, offset};
}

} // namespace quillbench
