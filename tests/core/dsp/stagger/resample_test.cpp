#include "core/dsp/stagger/resample.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>
#include <vector>

using namespace quillbench;

TEST_CASE("a tone keeps its samples at another rate", "[dsp]") {
    const double fromHz = GENERATE(8000.0, 44100.0, 48000.0, 96000.0);
    const double hz = GENERATE(110.0, 1000.0, 3000.0);
    std::vector<float> tone(static_cast<std::size_t>(fromHz / 2.0));
    for (std::size_t i = 0; i < tone.size(); ++i) {
        tone[i] = static_cast<float>(
            std::sin(2.0 * std::numbers::pi * hz * static_cast<double>(i) / fromHz));
    }
    const auto moved = resample(tone, fromHz, 16000.0);
    REQUIRE(moved.size() == 8000);
    double worst = 0.0;
    for (std::size_t i = 500; i < 7500; ++i) {
        const double wanted =
            std::sin(2.0 * std::numbers::pi * hz * static_cast<double>(i) / 16000.0);
        worst = std::max(worst, std::abs(moved[i] - wanted));
    }
    CHECK(worst < 1e-3); // −60 dB
}

TEST_CASE("what the lower rate cannot hold is taken out", "[dsp]") {
    std::vector<float> tone(24000);
    for (std::size_t i = 0; i < tone.size(); ++i) {
        tone[i] = static_cast<float>(
            std::sin(2.0 * std::numbers::pi * 9500.0 * static_cast<double>(i) / 48000.0));
    }
    const auto moved = resample(tone, 48000.0, 16000.0);
    for (std::size_t i = 500; i < 7500; ++i) {
        REQUIRE(std::abs(moved[i]) < 1e-3);
    }
}
