#pragma once

#include "core/dsp/scatter_mixture.hpp"

#include <Eigen/Dense>

#include <array>
#include <span>

namespace quillbench {

/// Belief in one partial's mean frequency over the definition's time: own data, helped by the comb where thin.
struct PartialBelief {
    double mean = 0.0;     ///< cents off the base comb
    double perGlide = 0.0; ///< cents per cent of glide
    double lean = 0.0;     ///< how much of it is the comb's
    double variance = 0.0; ///< cents², without the comb's own
    Eigen::Vector2d x;     ///< of pitch and ln B
};

/// At a value of the parameters; `perGlide`: what a cent of glide does to pitch and ln B.
[[nodiscard]] PartialBelief
beliefIn(const ScatterMixture& mixture, const StringVector& at, const Eigen::Vector2d& perGlide);

/// The definition's own fit: weights by its certainties, Tukey's biweight beyond four times the spread.
struct DefinitionFit {
    Eigen::Vector2d at = Eigen::Vector2d::Zero();               ///< pitch and ln B off the base
    std::array<double, HeterodyneBank::kMostPartials> weight{}; ///< of each partial in the pitch
};

/// From `start` (pitch and ln B off the base); ln B has a prior, which counts where few partials are heard.
/// **Range** one to 40 partials, as many mixtures. **Source** Tukey's biweight [Holland1977].
[[nodiscard]] DefinitionFit fitByDefinition(std::span<const PartialBelief> beliefs,
                                            std::span<const ScatterMixture> mixtures,
                                            const Eigen::Vector2d& start,
                                            double priorLnB,
                                            double priorLnSd);

} // namespace quillbench
