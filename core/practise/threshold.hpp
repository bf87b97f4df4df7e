#pragma once

#include "core/practise/exercise.hpp"

#include <optional>
#include <span>

namespace quillbench {

/// One question with its answer.
struct Answer {
    double level = 1.0; ///< on the scale of its kind
    bool right = false;
};

/// Where an ear stands: the level at which three answers of four are right.
struct Threshold {
    double level = 1.0; ///< the likeliest
    double low = 1.0;   ///< 90 % credible interval
    double high = 1.0;
    std::size_t answers = 0;

    /// The interval is narrow enough to be of use: its ends lie within a factor of five.
    [[nodiscard]] bool tells() const { return high <= 5.0 * low; }
};

/// Estimates the threshold from all answers, in whatever order they were asked: the posterior of the level on a grid,
/// over a logistic psychometric function of the level's logarithm whose slope and lapses are unknown too (integrated
/// out); its mode, and the interval between its 5 % and 95 % points. Before the answers the threshold is taken to lie
/// about the scale's usual one, within a factor of four (one standard deviation).
/// **Accuracy** threshold_test: 200 simulated learners, 60 answers each. **Range** levels > 0. Nothing without answers.
/// **Source** the mode of a posterior over log levels [Watson1983]; slope and lapses integrated as in
/// [Kontsevich1999] (value from memory).
[[nodiscard]] std::optional<Threshold> estimateThreshold(const DifficultyScale& scale,
                                                         std::span<const Answer> answers);

} // namespace quillbench
