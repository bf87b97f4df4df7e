#include "core/dsp/comb_band_system.hpp"
#include "core/dsp/comb_fit.hpp"

#include <Eigen/Cholesky>

#include <algorithm>
#include <cmath>

namespace quillbench {

double CombFit::meanGlide(std::size_t string, double from, double to) const {
    // Least-squares slope of ∫S over [from, to].
    constexpr int kPoints = 64;
    double sxx = 0.0;
    double sxy = 0.0;
    const double middle = 0.5 * (from + to);
    for (int i = 0; i < kPoints; ++i) {
        const double t = from + (to - from) * (i + 0.5) / kPoints;
        sxx += (t - middle) * (t - middle);
        sxy += (t - middle) * glidePhase(string, t);
    }
    return sxy / sxx;
}

CombFit::Estimate CombFit::meanFrequency(std::size_t upper,
                                         std::optional<std::size_t> lower,
                                         double from,
                                         double to) const {
    const auto shared = static_cast<Eigen::Index>(kPerString * strings_.size());
    Eigen::VectorXd weights = Eigen::VectorXd::Zero(shared);
    double value = 0.0;
    const auto bandOf = [&](std::size_t index) -> const CombBand& {
        for (const CombBand& band : bands_) {
            if (std::find(band.lines.begin(), band.lines.end(), index) != band.lines.end()) {
                return band;
            }
        }
        return bands_.front();
    };
    const CombBand& band = bandOf(upper);
    const auto p = static_cast<Eigen::Index>(band.lines.size());
    const Eigen::Index firstOffset = 2 * columnsOf(band) + p;
    Eigen::VectorXd local = Eigen::VectorXd::Zero(firstOffset + p);
    const auto add = [&](std::size_t index, double sign) {
        const CombLine& line = lines_[index];
        const CombState& string = strings_[line.string];
        const double slope = 1.0 + string.glide * meanGlide(line.string, from, to);
        const double n = line.number;
        const double stiffness = std::exp(string.lnB);
        const double root = std::sqrt(1.0 + stiffness * n * n);
        const Eigen::Index at = kPerString * static_cast<Eigen::Index>(line.string);
        value += sign * lineFrequency(line) * slope;
        weights(at) += sign * n * root * slope;
        weights(at + 1) += sign * n * string.f0 * 0.5 * n * n / root * stiffness * slope;
        weights(at + 2) += sign * lineFrequency(line) * meanGlide(line.string, from, to);
        for (Eigen::Index k = 0; k < p; ++k) {
            if (band.lines[static_cast<std::size_t>(k)] == index) {
                local(firstOffset + k) += sign * slope;
            }
        }
    };
    add(upper, 1.0);
    if (lower) {
        add(*lower, -1.0);
    }
    const BandSystem s = system(band);
    const Eigen::VectorXd solved = s.solver.solve(local);
    const Eigen::VectorXd effective = weights - s.cross.transpose() * solved;
    const double variance =
        local.dot(solved) + effective.dot(normalMatrix().ldlt().solve(effective));
    return Estimate{value, std::sqrt(std::max(variance, 0.0))};
}

CombFit::Estimate CombFit::sustainPitch(std::size_t string, double from, double to) const {
    const auto shared = static_cast<Eigen::Index>(kPerString * strings_.size());
    const CombState& state = strings_[string];
    const double mean = meanGlide(string, from, to);
    const double stiffness = std::exp(state.lnB);
    const double root = std::sqrt(1.0 + stiffness);
    const double slope = 1.0 + state.glide * mean;
    Eigen::VectorXd weights = Eigen::VectorXd::Zero(shared);
    const Eigen::Index at = kPerString * static_cast<Eigen::Index>(string);
    weights(at) = root * slope;
    weights(at + 1) = state.f0 * 0.5 / root * stiffness * slope;
    weights(at + 2) = state.f0 * root * mean;
    const double variance = weights.dot(normalMatrix().ldlt().solve(weights));
    return Estimate{state.f0 * root * slope, std::sqrt(std::max(variance, 0.0))};
}

} // namespace quillbench
