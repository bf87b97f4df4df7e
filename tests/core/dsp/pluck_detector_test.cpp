#include "core/dsp/single_string.hpp"
#include "tests/core/dsp/plucked_string.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>

using namespace quillbench;

namespace {

constexpr SampleRate kRate{48000.0};

double milliseconds(FrameIndex at, double seconds) {
    return 1000.0 * (static_cast<double>(at.value()) / kRate.hz() - seconds);
}

} // namespace

TEST_CASE("a pluck is found to two milliseconds over the compass", "[dsp]") {
    test::PluckedString string;
    string.pitchHz = GENERATE(30.0, 65.0, 220.0, 700.0, 2000.0);
    string.noise = 2e-4;
    string.after = 1.0;
    const auto onsets = onsetsIn(string.render(), kRate);
    REQUIRE(onsets.size() == 1);
    CHECK(std::abs(milliseconds(onsets[0], 0.5)) < 2.0);
}

TEST_CASE("silence, a constant and steady hum hold no pluck", "[dsp]") {
    std::vector<float> silence(96000, 0.0F);
    CHECK(onsetsIn(silence, kRate).empty());
    std::vector<float> hum(96000);
    for (std::size_t i = 0; i < hum.size(); ++i) {
        const double t = static_cast<double>(i) / kRate.hz();
        // Fades in slowly: a sudden beginning would be one.
        hum[i] = static_cast<float>(0.2 * std::min(1.0, t) *
                                    std::sin(2.0 * std::numbers::pi * 50.0 * t));
    }
    CHECK(onsetsIn(hum, kRate).empty());
}

TEST_CASE("the asked string's pluck is told from a knock before it", "[dsp]") {
    test::PluckedString string;
    string.pitchHz = 220.0;
    string.before = 1.0;
    auto samples = string.render();
    for (std::size_t i = 0; i < 4800; ++i) {
        const double t = static_cast<double>(i) / kRate.hz();
        samples[24000 + i] += static_cast<float>(0.3 * std::exp(-t / 0.015) *
                                                 std::sin(2.0 * std::numbers::pi * 310.0 * t));
    }
    ListeningFor what;
    what.target = Hertz(221.0);
    const auto onsets = onsetsIn(samples, kRate);
    REQUIRE(onsets.size() >= 2);
    const auto pluck = firstPluckOf(what, samples, kRate, onsets, FrameIndex(0));
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
    const auto pluck = firstPluckOf(what, samples, kRate, {}, FrameIndex(0));
    REQUIRE(pluck);
    CHECK(std::abs(milliseconds(*pluck, 0.5)) < 60.0);
}
