#include "core/practise/pin_path.hpp"
#include "core/practise/progress.hpp"
#include "core/support/random.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace quillbench;

namespace {

PinStand stand(double cents, bool handOff = false) {
    return {Cents(cents), handOff};
}

} // namespace

TEST_CASE("the width of an ear's settings is found, and its interval holds in nine of ten",
          "[practise]") {
    Random random(5);
    int inside = 0;
    constexpr int kEars = 400;
    for (int ear = 0; ear < kEars; ++ear) {
        const double width = std::exp(random.uniform(-3.0, 0.0));
        std::vector<double> left;
        left.reserve(10);
        for (int i = 0; i < 10; ++i) {
            left.push_back(width * random.normal());
        }
        const auto found = settingWithin(left);
        REQUIRE(found);
        // 75 % of a normal distribution lie within 1.1503 standard deviations (tables of the normal distribution).
        const double truth = 1.1503 * width;
        inside += found->low <= truth && truth <= found->high ? 1 : 0;
    }
    CHECK(inside >= 345);
    CHECK(inside <= 376);
    CHECK_FALSE(settingWithin(std::vector<double>{0.1}));
}

TEST_CASE("standings are told apart by interval and register", "[practise]") {
    std::vector<PracticeTrial> trials;
    for (int i = 0; i < 15; ++i) {
        PracticeTrial trial;
        trial.level = 2.0;
        trial.right = i % 4 != 0;
        trials.push_back(trial);
        trial.interval = PracticeInterval::Fifth;
        trial.earRegister = EarRegister::Bass;
        if (i < 4) {
            trials.push_back(trial);
        }
    }
    const auto standings = standingsOf(trials, ExerciseKind::Count);
    REQUIRE(standings.size() == 2);
    CHECK(standings[0].interval == PracticeInterval::Unison);
    CHECK(standings[0].threshold.answers == 15);
    CHECK_FALSE(standings[0].small);
    CHECK(standings[1].earRegister == EarRegister::Bass);
    CHECK(standings[1].small);
    CHECK(standingsOf(trials, ExerciseKind::WhichWay).empty());
}

TEST_CASE("weeks begin on Monday, and a week of few answers is told as a guess", "[practise]") {
    std::vector<PracticeTrial> trials;
    for (int i = 0; i < 12; ++i) {
        PracticeTrial trial;
        trial.day = i < 6 ? 4 : 10; // Monday 1970-01-05 and Sunday 1970-01-11
        trial.right = i % 3 != 0;
        trials.push_back(trial);
    }
    PracticeTrial alone = trials.front();
    alone.day = 11;
    trials.push_back(alone);
    const auto weeks = weeksOf(trials, ExerciseKind::Count, PracticeInterval::Unison);
    REQUIRE(weeks.size() == 2);
    CHECK(weeks[0].monday == 4);
    CHECK(weeks[0].threshold.answers == 12);
    CHECK_FALSE(weeks[0].small);
    CHECK(weeks[1].monday == 11);
    CHECK(weeks[1].small);
}

TEST_CASE("an ear that learns stands where it is now", "[practise]") {
    std::vector<PracticeTrial> trials;
    for (int i = 0; i < 160; ++i) {
        PracticeTrial trial;
        trial.level = i < 100 ? 1.0 + 0.02 * i : 3.0 + 0.1 * (i - 100);
        trial.right = trial.level < (i < 100 ? 2.0 : 6.0);
        trials.push_back(trial);
    }
    const auto standings = standingsOf(trials, ExerciseKind::Count);
    REQUIRE(standings.size() == 1);
    CHECK(standings[0].threshold.answers == kAnswersOfStanding);
    // The first hundred would have it near two.
    CHECK(standings[0].threshold.level > 4.5);
}

TEST_CASE("a pin that comes from above and is let go is graded so", "[practise]") {
    // Common practice, no source.
    const PinPath good =
        gradePath({stand(-12.0), stand(-2.0), stand(2.5), stand(0.4), stand(0.3, true)});
    CHECK(good.fromAbove);
    CHECK(good.settled);
    CHECK(good.crossings == 1);
    CHECK(good.highest.value() == Approx(2.5));
    CHECK_FALSE(good.tooHigh);

    const PinPath frombelow = gradePath({stand(-12.0), stand(-3.0), stand(0.1), stand(0.0, true)});
    CHECK_FALSE(frombelow.fromAbove);
    CHECK(frombelow.settled);

    const PinPath jumps = gradePath({stand(8.0), stand(1.5), stand(0.1), stand(-1.2, true)});
    CHECK(jumps.fromAbove);
    CHECK_FALSE(jumps.settled);
    CHECK(jumps.jumped.value() == Approx(-1.3));

    CHECK_FALSE(gradePath({stand(8.0), stand(0.1)}).settled);
    CHECK(gradePath({stand(-5.0), stand(14.0), stand(0.0)}).tooHigh);
    CHECK_FALSE(gradePath({stand(14.0), stand(0.0)}).tooHigh);
}
