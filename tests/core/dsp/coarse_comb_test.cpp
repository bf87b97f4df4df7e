#include "core/dsp/coarse_comb.hpp"
#include "tests/core/dsp/plucked_string.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>

using namespace quillbench;

namespace {

/// 0.3 s of a plucked string at 16 kHz.
std::vector<double> string(double hz, double noise) {
    test::PluckedString maker;
    maker.pitchHz = hz;
    maker.rateHz = 16000.0;
    maker.before = 0.0;
    maker.after = 0.3;
    maker.noise = noise;
    const auto samples = maker.render();
    return {samples.begin(), samples.end()};
}

double cents(double a, double b) {
    return 1200.0 * std::log2(a / b);
}

} // namespace

TEST_CASE("the comb is found within its range to a few cents", "[dsp]") {
    CoarseCombFinder finder(16000.0, 9600);
    const double off = GENERATE(-50.0, -12.0, 0.0, 33.0);
    const double hz = GENERATE(60.0, 220.0, 880.0);
    const auto sound = string(hz, 1e-3);
    const CoarseComb found = finder.find(sound, {}, {hz * std::exp2(-off / 1200.0), 60.0, 3e-5, 0});
    CHECK(found.prominence > 1.5);
    CHECK(std::abs(cents(found.comb.pitch(), hz)) < 6.0);
}

TEST_CASE("noise has no comb", "[dsp]") {
    CoarseCombFinder finder(16000.0, 9600);
    for (std::uint64_t seed = 1; seed <= 20; ++seed) {
        Random random(seed);
        std::vector<double> noise(4800);
        for (double& sample : noise) {
            sample = random.normal();
        }
        CHECK(finder.find(noise, {}, {220.0, 60.0, 3e-5, 0}).prominence < 0.6);
    }
}

TEST_CASE("hum louder than the string is taken off", "[dsp]") {
    // Mains and its harmonics stand 20 cents beside a string of 49.4 Hz.
    const auto withHum = [](std::vector<double> samples, double from) {
        for (std::size_t i = 0; i < samples.size(); ++i) {
            const double t = from + static_cast<double>(i) / 16000.0;
            for (int k = 1; k <= 8; ++k) {
                samples[i] += 0.3 / k * std::cos(2.0 * std::numbers::pi * 50.0 * k * t + k);
            }
        }
        return samples;
    };
    CoarseCombFinder finder(16000.0, 9600);
    const auto before = withHum(std::vector<double>(5600, 0.0), 0.0);
    const auto sound = withHum(string(49.4, 1e-3), 0.35);
    const CoarseSearch search{49.6, 60.0, 2e-5, 0};
    CHECK(std::abs(cents(finder.find(sound, before, search).comb.pitch(), 49.4)) < 8.0);
    // Without what was heard before, the hum draws the comb away: the check above means something.
    CHECK(std::abs(cents(finder.find(sound, {}, search).comb.pitch(), 49.4)) >
          3.0 * std::abs(cents(finder.find(sound, before, search).comb.pitch(), 49.4)));
}
