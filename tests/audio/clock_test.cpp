#include "audio/capture_clock.hpp"
#include "audio/clock_calibration.hpp"
#include "core/support/random.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>
#include <vector>

using namespace quillbench;

namespace {

/// A tone of true frequency `hz` through a card whose clock is `ppm` fast, with noise of the given RMS.
std::vector<float> captured(double hz, double ppm, double seconds, double noise, Random& random) {
    const double trueRate = 48000.0 * (1.0 + ppm * 1e-6);
    std::vector<float> samples(static_cast<std::size_t>(seconds * 48000.0));
    for (std::size_t i = 0; i < samples.size(); ++i) {
        const double t = static_cast<double>(i) / trueRate;
        samples[i] = static_cast<float>(0.1 * std::sin(2.0 * std::numbers::pi * hz * t) +
                                        noise * random.normal());
    }
    return samples;
}

} // namespace

TEST_CASE("the frequency at which a trusted tone is heard gives the clock error", "[unit]") {
    // By definition: a card 50 ppm fast takes 48002.4 samples a second, so 440 Hz look like 440/(1 + 50e-6).
    const TrustedTone tone{Hertz(440.0), 0.2};
    const auto clock = calibrateClock(tone, Hertz(440.0 / (1.0 + 50e-6)), 440e-6 * 0.3);
    REQUIRE(clock);
    CHECK(clock->ppm == Approx(50.0).margin(1e-6));
    CHECK(clock->ppmUncertainty == Approx(std::hypot(0.2, 0.3)).epsilon(1e-3));
    // Its use: the corrected rate gives the true pitch back.
    CHECK(440.0 / (1.0 + 50e-6) * SampleRate(48000).corrected(*clock).hz() / 48000.0 ==
          Approx(440.0).epsilon(1e-12));
}

TEST_CASE("a tone far from the trusted one calibrates nothing", "[unit]") {
    const auto clock = calibrateClock({Hertz(440.0), 0.0}, Hertz(441.0), 0.0);
    REQUIRE_FALSE(clock);
    CHECK(clock.error().code == ErrorCode::BadArgument);
    CHECK(clock.error().text.find("-2268 ppm") != std::string::npos);
}

TEST_CASE("a trusted tone gives the clock error", "[dsp]") {
    const double hz = GENERATE(100.0, 440.0, 1000.0, 5000.0);
    const double ppm = GENERATE(-180.0, 0.0, 62.0);
    Random random(11);
    const double noise = 0.1 / std::numbers::sqrt2 / 100.0; // 40 dB below the tone
    const auto clock =
        calibrateClock({Hertz(hz), 0.0}, captured(hz, ppm, 10.0, noise, random), SampleRate(48000));
    REQUIRE(clock);
    INFO(hz << " Hz, " << ppm << " ppm: " << clock->ppm << " ± " << clock->ppmUncertainty);
    // Cramér–Rao bound of a real tone's frequency, formula from memory (Rife and Boorstyn 1974 for the complex one):
    // σ_f = √(3/(SNR·N)) / (πT). Hann segments without overlap know half as much (1.5/0.75): √2 times that.
    const double n = 480000.0;
    const double bound = std::sqrt(3.0 / (1e4 * n)) / (std::numbers::pi * 10.0) / hz * 1e6;
    CHECK(std::fabs(clock->ppm - ppm) < 5.0 * std::numbers::sqrt2 * bound + 1e-4);
    CHECK(clock->ppmUncertainty > bound);
    CHECK(clock->ppmUncertainty < 4.0 * bound);
    if (hz == 440.0) {
        CHECK(std::fabs(clock->ppm - ppm) < 0.1);
    }
}

TEST_CASE("the clock's uncertainty is the scatter of the clock's error", "[dsp]") {
    Random random(5);
    double squares = 0.0;
    double claimed = 0.0;
    constexpr int kRuns = 40;
    for (int run = 0; run < kRuns; ++run) {
        const auto clock = calibrateClock(
            {Hertz(440.0), 0.0}, captured(440.0, 20.0, 6.0, 0.02, random), SampleRate(48000));
        REQUIRE(clock);
        squares += (clock->ppm - 20.0) * (clock->ppm - 20.0);
        claimed += clock->ppmUncertainty / kRuns;
    }
    // 40 runs know their standard deviation to 11 %; three of that and a tenth for the fit's own.
    CHECK(std::sqrt(squares / kRuns) / claimed == Approx(1.0).margin(0.43));
}

TEST_CASE("what is no steady tone near the trusted one calibrates nothing", "[dsp]") {
    Random random(3);
    std::vector<float> samples;
    SECTION("silence") {
        samples.assign(480000, 0.0F);
    }
    SECTION("noise") {
        samples = captured(440.0, 0.0, 10.0, 10.0, random);
    }
    SECTION("too short") {
        samples = captured(440.0, 0.0, 4.9, 0.0, random);
    }
    SECTION("a tone a semitone off") {
        samples = captured(466.16, 0.0, 10.0, 0.001, random);
    }
    SECTION("a tone that dies away as a string does") {
        samples = captured(440.0, 0.0, 10.0, 0.001, random);
        for (std::size_t i = 0; i < samples.size(); ++i) {
            samples[i] *= std::exp(-static_cast<float>(i) / 48000.0F);
        }
    }
    SECTION("a tone that stops for a moment") {
        samples = captured(440.0, 0.0, 10.0, 0.001, random);
        std::fill(samples.begin() + 200000, samples.begin() + 210000, 0.0F);
    }
    SECTION("a tone whose pitch wavers") {
        samples.resize(480000);
        for (std::size_t i = 0; i < samples.size(); ++i) {
            const double t = static_cast<double>(i) / 48000.0;
            samples[i] = static_cast<float>(
                0.1 * std::sin(2.0 * std::numbers::pi * 440.0 * t + 2.0 * std::sin(3.0 * t)));
        }
    }
    const auto clock = calibrateClock({Hertz(440.0), 0.0}, samples, SampleRate(48000));
    REQUIRE_FALSE(clock);
    INFO(clock.error().text);
    CHECK((clock.error().code == ErrorCode::NothingFound ||
           clock.error().code == ErrorCode::BadArgument));
}

TEST_CASE("frames against the steady clock show how fast a device runs", "[unit]") {
    const double ppm = GENERATE(-80.0, 0.0, 35.0);
    using Steady = std::chrono::steady_clock;
    Random random(9);
    CaptureClock clock(SampleRate(48000));
    const Steady::time_point start = Steady::now();
    CHECK_FALSE(clock.drift());
    for (int i = 0; i < 6000; ++i) { // a minute of callbacks each 10 ms, up to 5 ms late
        const double t = 0.01 * i;
        const auto frame = static_cast<std::int64_t>(t * 48000.0 * (1.0 + ppm * 1e-6));
        const auto late = std::chrono::duration<double>(t + random.uniform(0.0, 0.005));
        clock.add(
            {FrameIndex(frame), start + std::chrono::duration_cast<Steady::duration>(late), 1});
        if (t < 9.0) {
            CHECK_FALSE(clock.drift());
        }
    }
    const auto drift = clock.drift();
    REQUIRE(drift);
    // 60 stamps with 1.44 ms of scatter over 60 s: 1.44e-3·√12/(60·√60) = 10.7 ppm.
    CHECK(drift->ppmUncertainty == Approx(10.7).epsilon(0.3));
    CHECK(std::fabs(drift->ppm - ppm) < 3.0 * drift->ppmUncertainty);
    clock.add({FrameIndex(0), start, 2});
    CHECK_FALSE(clock.drift());
}
