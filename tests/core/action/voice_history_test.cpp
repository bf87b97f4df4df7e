#include "core/action/voice_history.hpp"
#include "core/support/random.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <vector>

using namespace quillbench;

namespace {

/// A register of 50 keys whose displacement has moved by `away` since it was new.
KeptPass passAt(double day, double away, double sitting, Random& random) {
    KeptPass pass;
    pass.day = day;
    for (std::size_t key = 0; key < 50; ++key) {
        KeptVoice voice;
        voice.key = key;
        const double own = std::sin(3.0 * static_cast<double>(key));
        voice.level = -30.0 + own + 0.5 * random.normal();
        voice.brightness = 2.0 + 0.1 * random.normal();
        voice.sustain = 3.0 + 0.3 * random.normal();
        voice.strength = own + 0.5 * random.normal();
        voice.strengthU = 0.5;
        voice.displacement = 8.0 + own + away + sitting + 1.0 * random.normal();
        pass.keys.push_back(voice);
    }
    return pass;
}

std::vector<KeptPass> yearOf(double perYear, int passes, std::uint64_t seed) {
    Random random(seed);
    std::vector<KeptPass> all;
    for (int i = 0; i < passes; ++i) {
        const double day = 1000.0 + 60.0 * i;
        all.push_back(passAt(day, perYear * 60.0 * i / 365.25, 0.4 * random.normal(), random));
    }
    return all;
}

} // namespace

TEST_CASE("what the plectra of a register lose in a year lies within its interval", "[action]") {
    constexpr int kTrials = 300;
    const double truth = GENERATE(0.0, -3.0);
    int inside = 0;
    int dated = 0;
    for (std::uint64_t trial = 1; trial <= kTrials; ++trial) {
        const WearOutlook outlook = wearOf(yearOf(truth, 7, trial));
        REQUIRE(outlook.known);
        inside += truth >= outlook.lowest && truth <= outlook.highest ? 1 : 0;
        dated += outlook.soonestDays ? 1 : 0;
    }
    // Binomial, 300 of 95 %: 285 ± 3.8.
    CHECK(inside >= 272);
    CHECK(inside <= 298);
    if (truth < 0.0) {
        CHECK(dated >= 240);
    } else {
        CHECK(dated <= 18); // half of 5 %, and four deviations
    }
}

TEST_CASE("when a register wants new plectra is told with its interval", "[action]") {
    // 3 dB a year, seen for 360 days: 3 dB below new five days after the last look.
    const WearOutlook outlook = wearOf(yearOf(-3.0, 7, 5));
    REQUIRE(outlook.soonestDays);
    REQUIRE(outlook.latestDays);
    CHECK(*outlook.soonestDays <= *outlook.latestDays);
    const WearOutlook early = wearOf(yearOf(-3.0, 4, 5));
    if (early.soonestDays) {
        CHECK(*early.soonestDays < 185.0);
    }
}

TEST_CASE("wear is not known of two passes, or of a few weeks", "[action]") {
    CHECK_FALSE(wearOf(yearOf(-3.0, 2, 1)).known);
    CHECK_FALSE(wearOf({}).known);
    std::vector<KeptPass> weeks = yearOf(-3.0, 4, 1);
    for (std::size_t i = 0; i < weeks.size(); ++i) {
        weeks[i].day = 10.0 * static_cast<double>(i);
    }
    CHECK_FALSE(wearOf(weeks).known);
}

TEST_CASE("registers are compared over the keys of both", "[action]") {
    Random random(3);
    const KeptPass first = passAt(0.0, 0.0, 0.0, random);
    KeptPass second = passAt(0.0, -2.0, 0.0, random);
    for (KeptVoice& voice : second.keys) {
        voice.level += 1.5;
    }
    second.keys.resize(40);
    const PassComparison both = comparePasses(first, second);
    CHECK(both.level.keys == 40);
    CHECK(both.level.amount == Approx(1.5).margin(3.0 * both.level.uncertainty));
    CHECK(both.level.uncertainty < 0.4);
    CHECK(both.displacement.amount == Approx(-2.0).margin(1.0));
    second.keys.resize(5);
    CHECK(comparePasses(first, second).level.keys == 0);
}

TEST_CASE("the key that changed since last time is named, others hardly ever", "[action]") {
    int others = 0;
    for (std::uint64_t seed = 1; seed <= 40; ++seed) {
        Random random(seed);
        const KeptPass before = passAt(0.0, 0.0, 0.0, random);
        KeptPass now = passAt(90.0, 0.0, 0.0, random);
        now.keys[20].strength -= 6.0;
        const std::vector<KeyChange> changed = comparePasses(before, now).changed;
        REQUIRE_FALSE(changed.empty());
        CHECK(changed.front().key == 20);
        CHECK(changed.front().amount == Approx(-6.0).margin(2.5));
        others += static_cast<int>(changed.size()) - 1;
    }
    CHECK(others <= 40); // 2 % of 2 000 keys
}
