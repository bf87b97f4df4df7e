#include "core/dsp/single_string.hpp"
#include "tests/core/dsp/plucked_string.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>

using namespace quillbench;

namespace {

constexpr SampleRate kDetectorRate{48000.0};

double milliseconds(FrameIndex at, double seconds) {
    return 1000.0 * (static_cast<double>(at.value()) / kDetectorRate.hz() - seconds);
}

} // namespace

TEST_CASE("a pluck is found to two milliseconds or, lower down, 0.7 of a period", "[dsp]") {
    test::PluckedString string;
    string.pitchHz = GENERATE(30.0, 65.0, 220.0, 700.0, 2000.0);
    string.noise = 2e-4;
    string.after = 1.0;
    auto samples = string.render();
    for (std::size_t i = 0; i < 9600; ++i) { // no sudden end
        samples[samples.size() - 1 - i] *= static_cast<float>(i) / 9600.0F;
    }
    auto onsets = onsetsIn(samples, kDetectorRate);
    // The noise begins with the recording, which is an onset of its own.
    std::erase_if(onsets, [](FrameIndex onset) { return milliseconds(onset, 0.0) < 30.0; });
    REQUIRE(onsets.size() == 1);
    INFO("pitch " << string.pitchHz);
    CHECK(std::abs(milliseconds(onsets[0], 0.5)) < std::max(2.0, 700.0 / string.pitchHz));
}

TEST_CASE("silence holds no onset, steady hum none but its own beginning", "[dsp]") {
    const std::vector<float> silence(96000, 0.0F);
    for (const FrameIndex onset : onsetsIn(silence, kDetectorRate)) {
        FAIL("onset at " << milliseconds(onset, 0.0));
    }
    std::vector<float> hum(96000);
    Random random(3);
    for (std::size_t i = 0; i < hum.size(); ++i) {
        const double t = static_cast<double>(i) / kDetectorRate.hz();
        hum[i] = static_cast<float>(1e-4 * random.normal());
        for (int k = 1; k <= 6; ++k) {
            hum[i] += static_cast<float>(0.1 / k * std::sin(2.0 * std::numbers::pi * 50.0 * k * t));
        }
    }
    for (const FrameIndex onset : onsetsIn(hum, kDetectorRate)) {
        const double ms = milliseconds(onset, 0.0);
        INFO("onset at " << ms);
        CHECK((ms < 30.0 || ms > 1950.0)); // the recording's own edges
    }
}

TEST_CASE("the asked string's pluck is told from a knock before it", "[dsp]") {
    test::PluckedString string;
    string.pitchHz = 220.0;
    string.before = 1.0;
    auto samples = string.render();
    for (std::size_t i = 0; i < 4800; ++i) {
        const double t = static_cast<double>(i) / kDetectorRate.hz();
        samples[24000 + i] += static_cast<float>(0.3 * std::exp(-t / 0.015) *
                                                 std::sin(2.0 * std::numbers::pi * 310.0 * t));
    }
    ListeningFor what;
    what.target = Hertz(221.0);
    const auto onsets = onsetsIn(samples, kDetectorRate);
    REQUIRE(onsets.size() >= 2);
    const auto pluck = firstPluckOf(what, samples, kDetectorRate, onsets, FrameIndex(0));
    REQUIRE(pluck);
    CHECK(std::abs(milliseconds(*pluck, 1.0)) < 2.0);
}

TEST_CASE("a pluck that noise hides is found by its comb", "[dsp]") {
    test::PluckedString string;
    string.pitchHz = 480.0;
    string.noise = 0.06; // the string's own RMS over the first second is about 0.03
    string.decayRate = 1.5;
    ListeningFor what;
    what.target = Hertz(482.0);
    const auto samples = string.render();
    const auto pluck = firstPluckOf(what, samples, kDetectorRate, {}, FrameIndex(0));
    REQUIRE(pluck);
    CHECK(std::abs(milliseconds(*pluck, 0.5)) < 60.0);
}
