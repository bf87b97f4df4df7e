#include "core/dsp/damper/release_fit.hpp"
#include "core/dsp/synthetic_pluck.hpp"
#include "core/support/random.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>
#include <vector>

using namespace quillbench;
using namespace quillbench::literals;

namespace {

constexpr SampleRate kRate(48000.0);

std::vector<float> released(double hz, double afterS, double decay60, double noise) {
    SyntheticString string;
    string.flexible = Hertz(hz);
    string.inharmonicity = 2e-5;
    std::vector<float> sound(static_cast<std::size_t>((0.3 + afterS + 0.8) * kRate.hz()), 0.0F);
    SyntheticPluck(string).addTo(sound,
                                 kRate,
                                 0.3 * kRate.hz(),
                                 -20.0_dB,
                                 SyntheticRelease{Seconds(afterS), Seconds(decay60)});
    Random random(9);
    for (float& x : sound) {
        x += static_cast<float>(noise * random.normal());
    }
    return sound;
}

} // namespace

TEST_CASE("the release of a key is heard where it was put", "[dsp]") {
    const double hz = GENERATE(65.0, 220.0, 880.0);
    INFO(hz);
    const double decay60 = 0.25;
    const auto reading = hearRelease(released(hz, 1.0, decay60, 1e-4), kRate, Hertz(hz));
    REQUIRE(reading.found);
    CHECK(reading.release.count() == Approx(1.3).margin(0.012));
    // Exponential decay in closed form: 40 dB of it take two thirds of the time of 60 dB.
    CHECK(reading.stop.count() == Approx(decay60 * 40.0 / 60.0).epsilon(0.25));
    CHECK(reading.decay60.count() == Approx(decay60).epsilon(0.25));
}

TEST_CASE("in a room the release is dated by the string, not by the tail", "[dsp]") {
    const double hz = GENERATE(98.0, 220.0, 523.0);
    INFO(hz);
    const double decay60 = 0.2;
    const std::vector<float> dry = released(hz, 1.0, decay60, 0.0);
    // A diffuse tail of 0.6 s (60 dB), 3 dB below the direct sound, from 5 ms after it: a living room in broad terms.
    Random random(4);
    std::vector<double> tail(static_cast<std::size_t>(0.5 * kRate.hz()));
    double energy = 0.0;
    for (std::size_t i = 240; i < tail.size(); ++i) {
        tail[i] = random.normal() * std::exp(-6.91 / 0.6 * static_cast<double>(i) / kRate.hz());
        energy += tail[i] * tail[i];
    }
    std::vector<float> heard(dry);
    for (std::size_t i = 0; i < dry.size(); ++i) {
        double sum = 0.0;
        for (std::size_t k = 240; k < std::min(i + 1, tail.size()); k += 24) {
            sum += tail[k] * static_cast<double>(dry[i - k]);
        }
        heard[i] += static_cast<float>(sum * std::sqrt(0.5 * 24.0 / energy));
    }
    const auto reading = hearRelease(heard, kRate, Hertz(hz));
    REQUIRE(reading.found);
    CHECK(reading.release.count() == Approx(1.3).margin(0.008));
    CHECK(std::abs(reading.release.count() - 1.3) <= 2.5 * reading.releaseU.count());
}

TEST_CASE("what no damper stops is told by its level half a second later", "[dsp]") {
    std::vector<float> sound = released(220.0, 1.0, 0.25, 1e-5);
    const auto whole = hearRelease(sound, kRate, Hertz(220.0));
    REQUIRE(whole.lingeringDb);
    CHECK(*whole.lingeringDb < -50.0);
    // One partial rings on, 20 dB below the string as it was just before: from the closed form, by powers.
    double power = 0.0;
    const auto at = [](double seconds) { return static_cast<std::size_t>(seconds * kRate.hz()); };
    for (std::size_t i = at(1.24); i < at(1.3); ++i) {
        power += std::pow(static_cast<double>(sound[i]), 2.0);
    }
    const double amplitude = std::sqrt(2.0 * power / static_cast<double>(at(1.3) - at(1.24))) * 0.1;
    for (std::size_t i = at(0.3); i < sound.size(); ++i) {
        const double turns = 3.0 * 220.0 * static_cast<double>(i) / kRate.hz();
        sound[i] += static_cast<float>(amplitude * std::sin(2.0 * std::numbers::pi * turns));
    }
    const auto partly = hearRelease(sound, kRate, Hertz(220.0));
    REQUIRE(partly.lingeringDb);
    CHECK(*partly.lingeringDb == Approx(-20.0).margin(2.0));
    CHECK(partly.release.count() == Approx(1.3).margin(0.012));
    sound.resize(at(1.85));
    CHECK_FALSE(hearRelease(sound, kRate, Hertz(220.0)).lingeringDb);
}

TEST_CASE("silence has no release", "[dsp]") {
    CHECK_FALSE(hearRelease(std::vector<float>(48000, 0.0F), kRate, Hertz(220.0)).found);
    CHECK_FALSE(hearRelease(std::vector<float>(60, 0.1F), kRate, Hertz(220.0)).found);
}

TEST_CASE("a string that rings on has no release", "[dsp]") {
    std::vector<float> sound = released(220.0, 30.0, 0.2, 1e-4);
    sound.resize(96000);
    CHECK_FALSE(hearRelease(sound, kRate, Hertz(220.0)).found);
}
