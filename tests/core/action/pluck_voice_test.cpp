#include "core/action/pluck_voice.hpp"
#include "core/analysis/beat_listener.hpp"
#include "core/support/random.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>
#include <vector>

using namespace quillbench;

namespace {

StringReading twoPartials(double first, double second) {
    StringReading reading;
    reading.standing = Standing::Ok;
    reading.used = Seconds(1.0);
    reading.pitch = Hertz(1000.0);
    reading.startSharpness = Cents(1.6);
    reading.startSharpnessUncertainty = Cents(0.1);
    for (int n = 1; n <= 2; ++n) {
        PartialReading partial;
        partial.number = n;
        partial.frequency = Hertz(1000.0 * n);
        partial.level = Decibel::fromAmplitude(n == 1 ? first : second);
        partial.decay60 = Seconds(4.0);
        reading.partials.tryPush(partial);
    }
    return reading;
}

/// A plucked tone with a burst of noise of a given amplitude at its beginning.
std::vector<float> toneWithNoise(double noise) {
    constexpr double kToneRate = 48000.0;
    Random random(4);
    std::vector<float> sound(9600);
    for (std::size_t i = 2400; i < sound.size(); ++i) {
        const double t = static_cast<double>(i - 2400) / kToneRate;
        double x = 0.0;
        for (int n = 1; n <= 8; ++n) {
            x += 0.05 / n * std::sin(2.0 * std::numbers::pi * 220.0 * n * t);
        }
        sound[i] = static_cast<float>(x + noise * std::exp(-t / 0.01) * random.normal());
    }
    return sound;
}

} // namespace

// Source: IEC 61672-1, table of the A weighting (value from memory).
TEST_CASE("the A curve is that of the standard's table", "[action]") {
    CHECK(earWeight(Hertz(31.5)) == Approx(-39.4).margin(0.15));
    CHECK(earWeight(Hertz(125.0)) == Approx(-16.1).margin(0.15));
    CHECK(earWeight(Hertz(250.0)) == Approx(-8.6).margin(0.15));
    CHECK(earWeight(Hertz(1000.0)) == Approx(0.0).margin(0.05));
    CHECK(earWeight(Hertz(2000.0)) == Approx(1.2).margin(0.1));
    CHECK(earWeight(Hertz(4000.0)) == Approx(1.0).margin(0.1));
}

TEST_CASE("a voice is the sum of its partials", "[action]") {
    const auto voice = voiceOf(twoPartials(0.1, 0.05));
    REQUIRE(voice);
    CHECK(voice->level == Approx(10.0 * std::log10(0.01 + 0.0025)));
    const double second = 0.0025 * std::pow(10.0, earWeight(Hertz(2000.0)) / 10.0);
    CHECK(voice->levelA == Approx(10.0 * std::log10(0.01 + second)).margin(0.05));
    CHECK(voice->brightness == Approx(std::log2((0.1 + 0.1) / 0.15)));
    CHECK(voice->sustain.count() == Approx(4.0).margin(1e-6));
    REQUIRE(voice->displacement);
    CHECK(*voice->displacement == Approx(10.0 * std::log10(1.6)));
}

TEST_CASE("half the displacement is six decibels of both", "[action]") {
    StringReading half = twoPartials(0.05, 0.025);
    half.startSharpness = Cents(0.4);
    const auto full = voiceOf(twoPartials(0.1, 0.05));
    const auto less = voiceOf(half);
    REQUIRE(full);
    REQUIRE(less);
    CHECK(full->level - less->level == Approx(6.02).margin(0.01));
    CHECK(*full->displacement - *less->displacement == Approx(6.02).margin(0.01));
}

TEST_CASE("a reading that says nothing, clips or was short has no voice", "[action]") {
    StringReading reading = twoPartials(0.1, 0.05);
    reading.standing = Standing::Nothing;
    CHECK_FALSE(voiceOf(reading));
    reading = twoPartials(0.1, 0.05);
    reading.used = Seconds(0.2);
    CHECK_FALSE(voiceOf(reading));
    reading = twoPartials(0.1, 0.05);
    reading.warnings = static_cast<std::uint32_t>(Warning::Clipped);
    CHECK_FALSE(voiceOf(reading));
}

TEST_CASE("a noisier beginning reads noisier", "[action]") {
    const SampleRate rate(48000.0);
    double last = -300.0;
    for (const double noise : {0.001, 0.004, 0.016, 0.064}) {
        const auto heard = attackNoise(toneWithNoise(noise), rate, 2400, Hertz(220.0), 0.0);
        REQUIRE(heard);
        CHECK(*heard > last);
        last = *heard;
    }
    CHECK_FALSE(attackNoise(toneWithNoise(0.01), rate, 100, Hertz(220.0), 0.0));
    CHECK_FALSE(attackNoise(toneWithNoise(0.01), rate, 9500, Hertz(220.0), 0.0));
}
