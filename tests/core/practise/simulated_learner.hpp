#pragma once

#include "core/practise/staircase.hpp"
#include "core/practise/threshold.hpp"
#include "core/support/random.hpp"

#include <cmath>
#include <numbers>
#include <vector>

namespace quillbench::test {

/// A learner with a known ear, not of the estimator's own shape: a cumulative Gauss curve over the logarithm of the
/// level, through 75 % at the threshold.
struct SimulatedLearner {
    double threshold = 1.0;
    double spread = 0.4; ///< standard deviation of the curve, natural logarithm
    double lapse = 0.02;
    double guessing = 0.5;
    double wayEasier = 1.0;

    [[nodiscard]] double chanceRight(double level) const {
        const double share = (0.75 - guessing) / (1.0 - guessing - lapse);
        const double easier = wayEasier * std::log(level / threshold) / spread;
        return guessing + (1.0 - guessing - lapse) * gauss(easier + inverseGauss(share));
    }

    static double gauss(double x) { return 0.5 * std::erfc(-x / std::numbers::sqrt2); }

    static double inverseGauss(double share) {
        double low = -6.0;
        double high = 6.0;
        for (int i = 0; i < 60; ++i) {
            const double middle = 0.5 * (low + high);
            (gauss(middle) < share ? low : high) = middle;
        }
        return low;
    }
};

/// A learner drawn by chance about a kind of exercise.
inline SimulatedLearner drawLearner(const DifficultyScale& scale, Random& random) {
    SimulatedLearner learner;
    learner.threshold = scale.usual * std::exp(random.uniform(-0.9, 0.7));
    learner.spread = random.uniform(0.2, 0.6);
    learner.lapse = random.uniform(0.0, 0.05);
    learner.guessing = scale.guessing;
    learner.wayEasier = scale.easiest > scale.hardest ? 1.0 : -1.0;
    return learner;
}

/// What it answers as the staircase asks.
inline std::vector<Answer> practise(const SimulatedLearner& learner,
                                    const DifficultyScale& scale,
                                    double start,
                                    int trials,
                                    Random& random) {
    Staircase staircase(scale, start);
    std::vector<Answer> answers;
    for (int i = 0; i < trials; ++i) {
        const double level = staircase.level();
        const bool right = random.uniform() < learner.chanceRight(level);
        answers.push_back({level, right});
        staircase.answered(right);
    }
    return answers;
}

} // namespace quillbench::test
