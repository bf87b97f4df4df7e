#include "core/practise/tapping.hpp"
#include "core/support/random.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <vector>

using namespace quillbench;

namespace {

/// Taps at a rate, from a hand that scatters by `scatter` seconds.
std::vector<Seconds> tapsAt(double rate, int count, double scatter, Random& random) {
    std::vector<Seconds> taps;
    taps.reserve(static_cast<std::size_t>(count));
    for (int i = 0; i < count; ++i) {
        taps.emplace_back(0.4 + i / rate + scatter * random.normal());
    }
    std::sort(taps.begin(), taps.end());
    return taps;
}

} // namespace

TEST_CASE("even taps give their rate", "[practise]") {
    Random random(1);
    const auto rate = rateOfTaps(tapsAt(2.0, 9, 0.0, random), 1);
    REQUIRE(rate);
    CHECK(rate->perSecond == Approx(2.0).epsilon(1e-9));
    CHECK(rate->taps == 9);
    CHECK(rate->missed == 0);
    CHECK(rate->uncertainty > 0.0);
}

TEST_CASE("a beat passed over and a finger that bounces do not change the rate", "[practise]") {
    Random random(2);
    std::vector<Seconds> taps = tapsAt(1.5, 10, 0.0, random);
    taps.erase(taps.begin() + 4);
    taps.insert(taps.begin() + 2, taps[1] + Seconds(0.03));
    const auto rate = rateOfTaps(taps, 1);
    REQUIRE(rate);
    CHECK(rate->perSecond == Approx(1.5).epsilon(1e-9));
    CHECK(rate->missed == 1);
    CHECK(rate->taps == 9);
}

TEST_CASE("a tap may stand for a group of beats", "[practise]") {
    Random random(3);
    const auto rate = rateOfTaps(tapsAt(2.0, 8, 0.0, random), 4);
    REQUIRE(rate);
    CHECK(rate->perSecond == Approx(8.0).epsilon(1e-9));
}

TEST_CASE("two taps are no count", "[practise]") {
    const std::vector<Seconds> two{Seconds(0.1), Seconds(0.9)};
    CHECK_FALSE(rateOfTaps(two, 1));
    CHECK_FALSE(rateOfTaps({}, 1));
}

TEST_CASE("what is said of a tapped rate holds", "[practise]") {
    Random random(4);
    int inside = 0;
    constexpr int kHands = 1000;
    for (int i = 0; i < kHands; ++i) {
        const double played = std::exp(random.uniform(std::log(0.4), std::log(4.0)));
        const int count = 4 + static_cast<int>(random.uniform() * 12.0);
        const double scatter = random.uniform(0.02, 0.05);
        const auto rate = rateOfTaps(tapsAt(played, count, scatter, random), 1);
        REQUIRE(rate);
        inside += std::abs(rate->perSecond - played) <= 2.0 * rate->uncertainty ? 1 : 0;
    }
    CHECK(inside >= 930);
}

TEST_CASE("a count is right within a tenth, and a true beat of higher partials is told apart",
          "[practise]") {
    const TappedRate good{2.1, 0.05, 8, 0};
    CHECK(scoreCount(good, BeatRate(2.0), 0.02).verdict == CountVerdict::Right);
    CHECK(scoreCount(good, BeatRate(-2.0), 0.02).verdict == CountVerdict::Right);
    CHECK(scoreCount(good, BeatRate(1.5), 0.02).verdict == CountVerdict::Wrong);
    const CountScore twice = scoreCount(good, BeatRate(1.04), 0.02);
    CHECK(twice.verdict == CountVerdict::OtherPartials);
    CHECK(twice.multiple == 2);
    const TappedRate vague{2.0, 0.5, 3, 0};
    CHECK(scoreCount(vague, BeatRate(2.0), 0.02).verdict == CountVerdict::TooVague);
    CHECK(scoreCount(good, BeatRate(2.0), 0.02).error == Approx(0.1));
}
