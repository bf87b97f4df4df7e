#include "core/practise/threshold.hpp"
#include "tests/core/practise/simulated_learner.hpp"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace quillbench;
using namespace quillbench::test;

namespace {

double startOf(const DifficultyScale& scale) {
    return scale.easiest > scale.hardest ? scale.usual * 2.0 : scale.usual * 0.5;
}

} // namespace

TEST_CASE("the thresholds of 200 learners are found within a fifth in 60 answers, with honest "
          "intervals",
          "[practise]") {
    const DifficultyScale scale = scaleOf(GENERATE(ExerciseKind::Count, ExerciseKind::WhichWay));
    Random random(4711);
    std::vector<double> errors;
    int inside = 0;
    for (int i = 0; i < 200; ++i) {
        const SimulatedLearner learner = drawLearner(scale, random);
        const auto answers = practise(learner, scale, startOf(scale), 60, random);
        const auto found = estimateThreshold(scale, answers);
        REQUIRE(found);
        errors.push_back(std::abs(found->level / learner.threshold - 1.0));
        inside += found->low <= learner.threshold && learner.threshold <= found->high ? 1 : 0;
    }
    std::sort(errors.begin(), errors.end());
    INFO("median " << errors[100] << ", 95 % " << errors[190] << ", inside " << inside);
    CHECK(errors[100] < 0.20);
    CHECK(errors[190] < 0.60);
    // 90 % of 200 are 180; chance alone leaves 172 to 188 in 19 of 20 cases (binomial).
    CHECK(inside >= 172);
    CHECK(inside <= 196);
}

TEST_CASE("the staircase keeps three answers of four right", "[practise]") {
    const DifficultyScale scale = scaleOf(GENERATE(ExerciseKind::Count, ExerciseKind::WhichWay));
    Random random(12);
    int right = 0;
    int all = 0;
    for (int i = 0; i < 100; ++i) {
        const auto answers =
            practise(drawLearner(scale, random), scale, startOf(scale), 120, random);
        for (std::size_t k = 40; k < answers.size(); ++k) {
            right += answers[k].right ? 1 : 0;
            ++all;
        }
    }
    // Near its aim, not at it: Garcia-Perez 1998, Vision Research 38, 1861 (abstract).
    const double share = static_cast<double>(right) / all;
    CHECK(share > 0.72);
    CHECK(share < 0.79);
}

TEST_CASE("few answers say little and say so", "[practise]") {
    const DifficultyScale scale = scaleOf(ExerciseKind::WhichWay);
    CHECK_FALSE(estimateThreshold(scale, {}));
    const std::vector<Answer> two{{10.0, true}, {8.0, false}};
    const auto found = estimateThreshold(scale, two);
    REQUIRE(found);
    CHECK(found->high / found->low > 5.0);
    CHECK(found->answers == 2);
}

TEST_CASE("somebody who is always right stands beyond the hardest question asked", "[practise]") {
    const DifficultyScale scale = scaleOf(ExerciseKind::Count);
    std::vector<Answer> answers;
    answers.reserve(20);
    for (int i = 0; i < 20; ++i) {
        answers.push_back({2.0, true});
    }
    const auto found = estimateThreshold(scale, answers);
    REQUIRE(found);
    CHECK(found->level > 2.0);
    CHECK(found->low > 1.8);
}
