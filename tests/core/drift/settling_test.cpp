#include "core/drift/settling.hpp"
#include "core/support/random.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <vector>

using namespace quillbench;
using namespace quillbench::literals;

namespace {

constexpr double kReadingCents = 0.4;

/// How strings of one simulated instrument sink.
struct Creep {
    double fold = 5.0; ///< cents for each e-fold of age
    double tau = 0.1;  ///< days
    double among = 0.3;
};

double sunk(double fold, double tau, double from, double to) {
    return fold * std::log((tau + to) / (tau + from));
}

/// One new string, set at first an hour after it was put on and then again each time it was heard.
SettlingHistory seen(double fold, double tau, const std::vector<double>& ages, Random& random) {
    SettlingHistory history;
    history.reserve(ages.size());
    double from = 0.04;
    for (const double to : ages) {
        const double moved = -sunk(fold, tau, from, to) + kReadingCents * random.normal();
        history.push_back({from, to, Cents(moved), Cents(kReadingCents)});
        from = to;
    }
    return history;
}

std::vector<SettlingHistory> pastOf(const Creep& creep, int strings, Random& random) {
    std::vector<SettlingHistory> past;
    past.reserve(static_cast<std::size_t>(strings));
    for (int i = 0; i < strings; ++i) {
        const double fold = creep.fold * std::exp(creep.among * random.normal());
        past.push_back(seen(fold, creep.tau, {0.5, 2.0, 7.0, 30.0}, random));
    }
    return past;
}

/// An instrument as the prior has them.
Creep drawn(Random& random) {
    Creep creep;
    creep.fold = 5.0 * std::exp(0.8 * random.normal());
    creep.tau = std::clamp(0.1 * std::exp(1.1 * random.normal()), 0.006, 2.5);
    return creep;
}

} // namespace

TEST_CASE("the interval for a new string holds the truth, before and after others were seen",
          "[drift]") {
    Random random(3);
    constexpr int kInstruments = 200;
    const int strings = GENERATE(0, 1, 4);
    INFO(strings << " strings seen before");
    int first = 0;
    int later = 0;
    int own = 0;
    for (int i = 0; i < kInstruments; ++i) {
        const Creep creep = drawn(random);
        const SettlingLaw law = SettlingLaw::learned(pastOf(creep, strings, random));
        CHECK(law.strings() == static_cast<std::size_t>(strings));
        const double fold = creep.fold * std::exp(creep.among * random.normal());
        const auto holds = [&](const SettlingLaw& said, double from, double to) {
            const SettlingRange range = said.sinks(from, to);
            const double truth = sunk(fold, creep.tau, from, to);
            return truth >= range.low && truth <= range.high ? 1 : 0;
        };
        first += holds(law, 0.04, 1.0);
        later += holds(law, 1.0, 10.0);
        own += holds(law.of(seen(fold, creep.tau, {0.3, 1.0, 3.0}, random)), 3.0, 10.0);
    }
    INFO(first << ", " << later << " and, seen itself, " << own << " of " << kInstruments);
    for (const int inside : {first, later, own}) {
        CHECK(inside >= 172); // 86 %
        CHECK(inside <= 196); // 98 %
    }
}

TEST_CASE("strings seen before make the interval narrower and bring it to their instrument",
          "[drift]") {
    Random random(5);
    const Creep slow{1.5, 0.1, 0.2};
    const SettlingLaw before;
    const SettlingLaw after = SettlingLaw::learned(pastOf(slow, 5, random));
    CHECK(before.strings() == 0);
    CHECK(after.sightings() == 20);
    const SettlingRange guessed = before.sinks(1.0, 10.0);
    const SettlingRange known = after.sinks(1.0, 10.0);
    const double truth = sunk(1.5, 0.1, 1.0, 10.0);
    CHECK(known.middle == Approx(truth).epsilon(0.25));
    CHECK(known.high / known.low < 0.4 * guessed.high / guessed.low);
    CHECK(after.calmFrom(2.0_ct, 14.0).middle < before.calmFrom(2.0_ct, 14.0).middle);
}

TEST_CASE("what one string did itself counts more than what others did", "[drift]") {
    Random random(7);
    const SettlingLaw others = SettlingLaw::learned(pastOf({5.0, 0.1, 0.3}, 4, random));
    const SettlingHistory own = seen(12.0, 0.1, {0.3, 1.0, 3.0}, random);
    const SettlingRange before = others.sinks(3.0, 10.0);
    const SettlingRange after = others.of(own).sinks(3.0, 10.0);
    const double truth = sunk(12.0, 0.1, 3.0, 10.0);
    CHECK(std::abs(after.middle - truth) < std::abs(before.middle - truth));
    CHECK(after.middle == Approx(truth).epsilon(0.2));
    CHECK(others.of({}).sinks(3.0, 10.0).middle == Approx(before.middle));
}

TEST_CASE("one wild sighting moves the law little", "[drift]") {
    Random random(11);
    std::vector<SettlingHistory> past = pastOf({5.0, 0.1, 0.2}, 4, random);
    const double middle = SettlingLaw::learned(past).sinks(1.0, 10.0).middle;
    past[1][2].moved = Cents(past[1][2].moved.value() - 60.0); // its pin slipped
    CHECK(SettlingLaw::learned(past).sinks(1.0, 10.0).middle == Approx(middle).epsilon(0.2));
}

TEST_CASE("a string that sinks another way is followed as far as it was seen", "[drift]") {
    // An exponential end, which is not the law's shape: 20 cents with 2 days.
    Random random(13);
    const auto level = [](double age) { return -20.0 * (1.0 - std::exp(-age / 2.0)); };
    std::vector<SettlingHistory> past(5);
    for (SettlingHistory& one : past) {
        double from = 0.04;
        for (const double to : {0.5, 2.0, 7.0, 30.0}) {
            const double moved = level(to) - level(from) + kReadingCents * random.normal();
            one.push_back({from, to, Cents(moved), Cents(kReadingCents)});
            from = to;
        }
    }
    const SettlingLaw law = SettlingLaw::learned(past);
    const SettlingRange first = law.sinks(0.04, 7.0);
    const double truth = level(0.04) - level(7.0);
    CHECK(truth >= first.low);
    CHECK(truth <= first.high);
}

TEST_CASE("a plan names times that grow, until the string is left alone", "[drift]") {
    const SettlingLaw law;
    const SettlingPlan plan = planSettling(law, 0.0);
    REQUIRE(plan.steps.size() >= 2);
    double before = 0.0;
    double wait = 0.0;
    for (const SettlingStep& step : plan.steps) {
        CHECK(step.age.low <= step.age.middle);
        CHECK(step.age.middle <= step.age.high);
        CHECK(step.age.middle - before > wait);
        wait = step.age.middle - before;
        before = step.age.middle;
        CHECK(step.age.middle <= plan.calm.middle);
        // Closed form: at the middle of the time it has sunk by about what is allowed.
        CHECK(step.sunk.middle == Approx(5.0).epsilon(0.5));
    }
    CHECK(plan.calm.low < plan.calm.high);
    // One that is old already needs nothing.
    CHECK(planSettling(law, 2.0 * plan.calm.middle).steps.empty());
}
