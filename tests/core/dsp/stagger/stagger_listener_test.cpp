#include "core/dsp/stagger/stagger_listener.hpp"
#include "core/dsp/synthetic_pluck.hpp"
#include "core/support/random.hpp"

#include <catch2/catch.hpp>

#include <array>
#include <cmath>
#include <vector>

using namespace quillbench;
using namespace quillbench::literals;

namespace {

constexpr SampleRate kStaggerRate(48000.0);

SyntheticString stringOf(double hz, double pluckPoint, std::uint64_t seed, Cents glide) {
    SyntheticString string;
    string.flexible = Hertz(hz);
    string.inharmonicity = 3e-5;
    string.pluckPoint = pluckPoint;
    string.glide = glide;
    string.seed = seed;
    return string;
}

/// Two 8′ and a 4′ of one key.
std::array<SyntheticPluck, 3> stringsOf(double hz, Cents glide) {
    return {SyntheticPluck(stringOf(hz, 0.12, 1, glide)),
            SyntheticPluck(stringOf(hz * 1.0006, 0.18, 2, glide)),
            SyntheticPluck(stringOf(2.0 * hz * 0.9995, 0.15, 3, glide))};
}

constexpr double kRatios[] = {1.0, 1.0, 2.0};

std::vector<float> noise(double seconds, std::uint64_t seed) {
    Random random(seed);
    std::vector<float> sound(static_cast<std::size_t>(seconds * kStaggerRate.hz()));
    for (float& x : sound) {
        x = static_cast<float>(2e-4 * random.normal());
    }
    return sound;
}

struct Played {
    std::size_t choir;
    double at;
    double db;
};

constexpr Cents kUsualGlide{1.0};

StaggerReading listen(double hz,
                      const std::vector<Played>& plucks,
                      bool solosKnown,
                      Cents soloGlide = kUsualGlide) {
    const auto strings = stringsOf(hz, kUsualGlide);
    const auto alone = stringsOf(hz, soloGlide);
    std::vector<float> key = noise(2.0, 11);
    for (const Played& played : plucks) {
        strings[played.choir].addTo(key,
                                    kStaggerRate,
                                    played.at * kStaggerRate.hz(),
                                    Decibel::fromAmplitude(std::pow(10.0, played.db / 20.0)));
    }
    std::array<std::vector<float>, 3> solos;
    StaggerQuestion question;
    question.key = Hertz(hz);
    for (std::size_t c = 0; c < 3; ++c) {
        solos[c] = noise(1.4, 20 + c);
        alone[c].addTo(solos[c], kStaggerRate, 0.31 * kStaggerRate.hz(), -26.0_dB);
        StaggeredChoir choir;
        choir.ratio = kRatios[c];
        if (solosKnown) {
            choir.solo = SoloSound{solos[c], kStaggerRate};
        }
        question.choirs.tryPush(choir);
    }
    return listenToStagger(key, kStaggerRate, question);
}

} // namespace

TEST_CASE("three registers are heard in their order with their instants", "[dsp]") {
    const double hz = GENERATE(65.0, 220.0, 700.0);
    INFO(hz);
    const auto reading = listen(hz, {{2, 0.5, -24.0}, {1, 0.512, -28.0}, {0, 0.561, -25.0}}, true);
    REQUIRE(reading.plucks.size() == 3);
    CHECK(reading.plucks[0].choir == 2);
    CHECK(reading.plucks[1].choir == 1);
    CHECK(reading.plucks[2].choir == 0);
    CHECK(reading.plucks[0].at.count() == Approx(0.5).margin(0.002));
    CHECK(reading.plucks[1].at.count() == Approx(0.512).margin(0.002));
    CHECK(reading.plucks[2].at.count() == Approx(0.561).margin(0.002));
    CHECK(reading.plucks[0].confidence > 0.75);
    CHECK_FALSE(reading.weak);
    // Levels as played, against the solo at −26 dB.
    CHECK(reading.plucks[0].level - reading.plucks[1].level == Approx(4.0).margin(6.0));
}

TEST_CASE("a register that is on but does not pluck is left out", "[dsp]") {
    const auto reading = listen(220.0, {{1, 0.5, -26.0}, {0, 0.53, -26.0}}, true);
    REQUIRE(reading.plucks.size() == 2);
    CHECK(reading.plucks[0].choir == 1);
    CHECK(reading.plucks[1].choir == 0);
}

TEST_CASE("a pluck softer than its solo, whose pitch glides otherwise, is heard as that choir",
          "[dsp]") {
    const double hz = GENERATE(180.0, 456.0);
    INFO(hz);
    const auto reading = listen(hz, {{1, 0.5, -30.0}, {0, 0.59, -27.0}}, true, Cents(3.0));
    REQUIRE(reading.plucks.size() == 2);
    CHECK(reading.plucks[0].choir == 1);
    CHECK(reading.plucks[0].at.count() == Approx(0.5).margin(0.003));
    CHECK(reading.plucks[1].choir == 0);
    CHECK(reading.plucks[1].at.count() == Approx(0.59).margin(0.003));
}

TEST_CASE("without solos plucks are heard, choirs only guessed", "[dsp]") {
    const auto reading =
        listen(220.0, {{0, 0.5, -25.0}, {1, 0.56, -25.0}, {2, 0.62, -25.0}}, false);
    REQUIRE(reading.plucks.size() == 3);
    CHECK(reading.plucks[0].at.count() == Approx(0.5).margin(0.003));
    CHECK(reading.plucks[1].at.count() == Approx(0.56).margin(0.003));
    CHECK(reading.plucks[2].at.count() == Approx(0.62).margin(0.003));
    CHECK(reading.weak);
    for (const ChoirPluck& pluck : reading.plucks) {
        CHECK(pluck.confidence < 0.9);
    }
}

TEST_CASE("silence and a file too short hold no pluck", "[dsp]") {
    StaggerQuestion question;
    question.key = Hertz(220.0);
    question.choirs.tryPush({});
    CHECK(listenToStagger(std::vector<float>(48000, 0.0F), kStaggerRate, question).plucks.empty());
    CHECK(listenToStagger(std::vector<float>(100, 0.1F), kStaggerRate, question).plucks.empty());
}
