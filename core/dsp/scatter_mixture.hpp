#pragma once

#include "core/dsp/mean_frequency.hpp"

#include <array>
#include <cstddef>
#include <span>
#include <utility>

namespace quillbench {

inline constexpr std::size_t kScatterSizes = 9;
using ScatterSizes = std::array<double, kScatterSizes>;
using ScatterTable = std::array<ScatterSizes, kScatterSizes>; ///< [wander][offset]

/// How far the partials of a string wander, in cents.
inline constexpr ScatterSizes kWander{0.03, 0.06, 0.12, 0.25, 0.5, 1.0, 2.0, 4.0, 8.0};
/// How far their mean frequencies lie off the comb, in multiples of their certainty in the definition.
inline constexpr ScatterSizes kOffset{0.5, 1.0, 2.0, 4.0, 8.0, 16.0, 32.0, 64.0, 128.0};

/// What one partial says for every size of wandering and offset, and its belief in each: a scale mixture,
/// so that a disturbed partial counts less without a threshold. **Source** [West1984].
struct ScatterMixture {
    std::array<MeanFrequency, kScatterSizes> byWander;
    double offsetVariance = 0; ///< of the definition, cents²
    ScatterTable share{};

    /// Variance in cents² of the mean frequency about the comb for a pair of sizes.
    [[nodiscard]] double variance(std::size_t wander, std::size_t offset) const {
        return byWander[wander].variance + offsetVariance * kOffset[offset] * kOffset[offset];
    }

    /// Adds what the partial says of the string, by its present belief in its sizes.
    void addTo(Eigen::Matrix3d& a, StringVector& b) const;
};

/// Likelihood of each pair of sizes for one partial at a trial value of the parameters, the largest scaled to 1.
[[nodiscard]] ScatterTable likelihoods(const ScatterMixture& mixture, const StringVector& at);

/// Belief in the sizes that the string's partials share; one partial may step out by a size or several.
[[nodiscard]] ScatterTable stringBelief(std::span<const ScatterTable> tables);

/// Each partial's belief in its own sizes, given the string's.
[[nodiscard]] ScatterTable shareOf(const ScatterTable& likelihood, const ScatterTable& belief);

/// Mean logarithms of wandering (cents) and offset under a belief.
[[nodiscard]] std::pair<double, double> meanLogs(const ScatterTable& shares);

} // namespace quillbench
