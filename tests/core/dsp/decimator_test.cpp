#include "core/dsp/decimator.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>

using namespace quillbench;

namespace {

std::vector<float> sine(double hz, double rateHz, std::size_t count) {
    std::vector<float> samples(count);
    for (std::size_t i = 0; i < count; ++i) {
        samples[i] = static_cast<float>(
            std::sin(2.0 * std::numbers::pi * hz * static_cast<double>(i) / rateHz));
    }
    return samples;
}

std::vector<double> decimated(Decimator& decimator, const std::vector<float>& samples) {
    std::vector<double> out;
    decimator.begin(0, 0);
    decimator.push(samples, out);
    return out;
}

} // namespace

TEST_CASE("a tone in the pass band keeps amplitude and time, at every rate", "[dsp]") {
    const double rateHz = GENERATE(8000.0, 22050.0, 44100.0, 48000.0, 96000.0, 192000.0);
    const double hz = rateHz < 16000.0 ? 3000.0 : 5900.0;
    Decimator decimator{SampleRate(rateHz)};
    const auto out = decimated(decimator, sine(hz, rateHz, 20000));
    double worst = 0.0;
    for (std::size_t j = 200; j + 200 < out.size(); ++j) {
        const double t = static_cast<double>(j) / decimator.outputRateHz();
        worst = std::max(worst, std::abs(out[j] - std::sin(2.0 * std::numbers::pi * hz * t)));
    }
    INFO("rate " << rateHz);
    REQUIRE(out.size() > 500);
    CHECK(worst < 1e-4); // −80 dB; float input and Kaiser's 95 dB
}

TEST_CASE("what would fold onto the partials is gone", "[dsp]") {
    Decimator decimator{SampleRate(48000.0)};
    // 11 kHz folds to 5 kHz at 16 kHz.
    const auto out = decimated(decimator, sine(11000.0, 48000.0, 20000));
    double loudest = 0.0;
    for (std::size_t j = 100; j + 100 < out.size(); ++j) {
        loudest = std::max(loudest, std::abs(out[j]));
    }
    CHECK(loudest < 1e-4);
}

TEST_CASE("how the sound is cut into blocks does not matter to a bit", "[dsp]") {
    const auto samples = sine(440.0, 44100.0, 5000);
    Decimator whole{SampleRate(44100.0)};
    const auto reference = decimated(whole, samples);
    Decimator cut{SampleRate(44100.0)};
    cut.begin(0, 0);
    std::vector<double> out;
    std::span<const float> left(samples);
    for (std::size_t size = 1; !left.empty(); size = size * 7 % 391 + 1) {
        const std::size_t count = std::min(size, left.size());
        cut.push(left.first(count), out);
        left = left.subspan(count);
    }
    CHECK(out == reference);
}

TEST_CASE("output zero stands for the origin even when sound begins before it", "[dsp]") {
    Decimator decimator{SampleRate(48000.0)};
    decimator.begin(1000, 100);
    std::vector<double> out;
    CHECK(decimator.nextOutput() == -300);
    decimator.push(sine(440.0, 48000.0, 3000), out);
    // Sample i of the sound has index 100 + i; output j − 300 stands for index 1000 + 3·(j − 300) = 100 + 3·j.
    const double t = 3.0 * 600 / 48000.0;
    CHECK(out[600] == Approx(std::sin(2.0 * std::numbers::pi * 440.0 * t)).margin(1e-4));
}
