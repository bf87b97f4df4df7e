#include "core/practise/habits.hpp"
#include "core/support/random.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace quillbench;

namespace {

/// An ear that leaves `habit` cents on the whole, differs by `between` from sitting to sitting and scatters.
std::vector<SettingLeft> simulatedEar(
    Random& random, double habit, double between, double scatter, int sittings, int settings) {
    std::vector<SettingLeft> left;
    for (int sitting = 0; sitting < sittings; ++sitting) {
        const double today = habit + between * random.normal();
        for (int i = 0; i < settings; ++i) {
            const double u = 0.2 * scatter;
            left.push_back({sitting,
                            Cents(today + scatter * random.normal() + u * random.normal()),
                            Cents(u)});
        }
    }
    return left;
}

} // namespace

TEST_CASE("the habit of a simulated ear lies within its interval in nine of ten", "[practise]") {
    const std::uint64_t seed = GENERATE(1U, 2U);
    Random random(seed);
    constexpr int kEars = 500;
    int inside = 0;
    int clear = 0;
    for (int ear = 0; ear < kEars; ++ear) {
        const double scatter = std::exp(random.uniform(-2.0, 0.5));
        const double habit = scatter * random.normal();
        const double between = scatter * random.uniform(0.0, 1.5);
        const int sittings = 3 + static_cast<int>(random.uniform(0.0, 10.0));
        const int settings = 2 + static_cast<int>(random.uniform(0.0, 6.0));
        const auto found =
            habitOf(simulatedEar(random, habit, between, scatter, sittings, settings));
        REQUIRE(found);
        inside += found->low.value() <= habit && habit <= found->high.value() ? 1 : 0;
        clear += found->clear() ? 1 : 0;
        CHECK(found->low < found->mean);
        CHECK(found->mean < found->high);
    }
    // 90 % of 500 with three standard deviations of a binomial distribution.
    CHECK(inside >= 430);
    CHECK(inside <= 470);
    // An interval that says nothing would hold as well.
    CHECK(clear > kEars / 3);
}

TEST_CASE("with many even sittings the habit is that of the classical analysis", "[practise]") {
    // One-way layout with random effects, as many settings in each sitting: the mean of the means, and Student's t of
    // them with one less than the sittings (handbooks of statistics; t for 90 % and 29 degrees of freedom 1.699, tables).
    Random random(7);
    constexpr int kSittings = 30;
    constexpr int kEach = 4;
    std::vector<SettingLeft> left = simulatedEar(random, -0.6, 0.3, 0.4, kSittings, kEach);
    std::vector<double> means(kSittings, 0.0);
    for (SettingLeft& one : left) {
        one.uncertainty = Cents(0.0);
        means[static_cast<std::size_t>(one.sitting)] += one.left.value() / kEach;
    }
    double within = 0.0;
    for (const SettingLeft& one : left) {
        const double off = one.left.value() - means[static_cast<std::size_t>(one.sitting)];
        within += off * off / (kSittings * (kEach - 1.0));
    }
    double mean = 0.0;
    double squares = 0.0;
    for (const double one : means) {
        mean += one / kSittings;
    }
    for (const double one : means) {
        squares += (one - mean) * (one - mean);
    }
    const double half = 1.699 * std::sqrt(squares / (kSittings - 1.0) / kSittings);
    const auto found = habitOf(left);
    REQUIRE(found);
    CHECK(found->mean.value() == Approx(mean).margin(1e-9));
    CHECK(found->high.value() - mean == Approx(half).epsilon(0.12));
    CHECK(mean - found->low.value() == Approx(half).epsilon(0.12));
    CHECK(found->scatter.value() == Approx(std::sqrt(within)).epsilon(0.03));
    CHECK(found->clear());
}

TEST_CASE("an exercise that was given up hides no habit", "[practise]") {
    Random random(11);
    std::vector<SettingLeft> left = simulatedEar(random, -0.6, 0.1, 0.3, 5, 6);
    left.push_back({9, Cents(8.0), Cents(0.1)});
    const auto found = habitOf(left);
    REQUIRE(found);
    CHECK(found->settings == 30);
    CHECK(found->clear());
    CHECK(found->mean.value() == Approx(-0.6).margin(0.2));
}

TEST_CASE("no habit is told from one sitting or a few settings", "[practise]") {
    Random random(9);
    CHECK_FALSE(habitOf(simulatedEar(random, 1.0, 0.0, 0.1, 1, 20)));
    CHECK_FALSE(habitOf(simulatedEar(random, 1.0, 0.0, 0.1, 2, 2)));
    CHECK(habitOf(simulatedEar(random, 1.0, 0.0, 0.1, 2, 3)));
}

TEST_CASE("settings of one kind and interval are taken, a sitting a day", "[practise]") {
    PracticeTrial trial;
    trial.kind = ExerciseKind::BringTogether;
    trial.interval = PracticeInterval::FourFoot;
    trial.day = 20700;
    trial.leftBeats = -0.25;
    trial.leftCents = -0.5;
    trial.beatUncertainty = 0.05;
    PracticeTrial other = trial;
    other.interval = PracticeInterval::Unison;
    const std::vector<PracticeTrial> trials{trial, other, trial};
    const auto settings =
        settingsOf(trials, ExerciseKind::BringTogether, PracticeInterval::FourFoot);
    REQUIRE(settings.size() == 2);
    CHECK(settings[0].sitting == 20700);
    CHECK(settings[0].left == Cents(-0.5));
    CHECK(settings[0].uncertainty.value() == Approx(0.1));
}
