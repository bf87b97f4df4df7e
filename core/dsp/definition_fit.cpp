#include "core/dsp/definition_fit.hpp"

#include <algorithm>
#include <cmath>

namespace quillbench {

namespace {

constexpr std::size_t kMostDefined = HeterodyneBank::kMostPartials;
constexpr int kRefinements = 10;
constexpr int kGentle = 3; // first rounds, in which no partial is cast out

} // namespace

PartialBelief
beliefIn(const ScatterMixture& mixture, const StringVector& at, const Eigen::Vector2d& perGlide) {
    PartialBelief belief;
    belief.x = Eigen::Vector2d(1.0, mixture.byWander[0].slope);
    const double comb = belief.x.dot(at.head<2>());
    const double combPerGlide = belief.x.dot(perGlide);
    for (std::size_t w = 0; w < kScatterSizes; ++w) {
        const MeanFrequency& own = mixture.byWander[w];
        for (std::size_t o = 0; o < kScatterSizes; ++o) {
            const double off = mixture.offsetVariance * kOffset[o] * kOffset[o];
            const double lean = own.variance / (own.variance + off);
            const double part = mixture.share[w][o];
            belief.mean += part * (lean * comb + (1.0 - lean) * (own.value + at(2) * own.perGlide));
            belief.perGlide += part * (lean * combPerGlide + (1.0 - lean) * own.perGlide);
            belief.lean += part * lean;
            belief.variance += part * lean * off;
        }
    }
    return belief;
}

DefinitionFit fitByDefinition(std::span<const PartialBelief> beliefs,
                              std::span<const ScatterMixture> mixtures,
                              const Eigen::Vector2d& start,
                              double priorLnB,
                              double priorLnSd) {
    DefinitionFit fit;
    double spread = 1.0;
    fit.at = start;
    std::array<double, kMostDefined> sizes{};
    for (int step = 0; step < kRefinements; ++step) {
        Eigen::Matrix2d a = Eigen::Matrix2d::Zero();
        Eigen::Vector2d b = Eigen::Vector2d::Zero();
        a(1, 1) = std::pow(spread / priorLnSd, 2.0);
        b(1) = a(1, 1) * priorLnB;
        std::array<double, kMostDefined> weights{};
        for (std::size_t i = 0; i < beliefs.size(); ++i) {
            const double sd = std::sqrt(mixtures[i].offsetVariance + beliefs[i].variance);
            const double u = (beliefs[i].mean - beliefs[i].x.dot(fit.at)) / (4.0 * spread * sd);
            const double tukey = std::abs(u) < 1.0 ? (1.0 - u * u) * (1.0 - u * u) : 0.0;
            const double robust = step < kGentle ? 1.0 / (1.0 + std::abs(u)) : tukey;
            weights[i] = robust / (sd * sd);
            a += weights[i] * beliefs[i].x * beliefs[i].x.transpose();
            b += weights[i] * beliefs[i].mean * beliefs[i].x;
        }
        const Eigen::Matrix2d inverse = a.inverse();
        fit.at = inverse * b;
        for (std::size_t i = 0; i < beliefs.size(); ++i) {
            const double sd = std::sqrt(mixtures[i].offsetVariance + beliefs[i].variance);
            fit.weight[i] = weights[i] * inverse.row(0).dot(beliefs[i].x);
            sizes[i] = std::abs(beliefs[i].mean - beliefs[i].x.dot(fit.at)) / sd;
        }
        const auto middle = sizes.begin() + static_cast<std::ptrdiff_t>(beliefs.size() / 2);
        std::nth_element(
            sizes.begin(), middle, sizes.begin() + static_cast<std::ptrdiff_t>(beliefs.size()));
        spread = std::max(1.0, 1.4826 * *middle);
    }
    return fit;
}

} // namespace quillbench
