#include "core/dsp/stagger/beginnings.hpp"
#include "core/dsp/stagger/ring_whitener.hpp"
#include "core/support/random.hpp"

#include <catch2/catch.hpp>

#include <array>
#include <cmath>
#include <numbers>
#include <span>
#include <vector>

using namespace quillbench;

namespace {

constexpr double kWhitenerRateHz = 16000.0;

/// Two decaying tones that begin at `at`.
void ring(std::vector<double>& sound, std::size_t at, double firstHz) {
    for (std::size_t i = at; i < sound.size(); ++i) {
        const double t = static_cast<double>(i - at) / kWhitenerRateHz;
        sound[i] += std::exp(-2.0 * t) * std::sin(2.0 * std::numbers::pi * firstHz * t) +
                    0.5 * std::exp(-3.0 * t) * std::sin(2.0 * std::numbers::pi * 2.7 * firstHz * t);
    }
}

double power(std::span<const double> sound) {
    double sum = 0.0;
    for (const double x : sound) {
        sum += x * x;
    }
    return sum / static_cast<double>(sound.size());
}

} // namespace

TEST_CASE("white noise stays as it is: nothing in it can be predicted", "[dsp]") {
    Random random(3);
    std::vector<double> noise(16000);
    for (double& x : noise) {
        x = random.normal();
    }
    const std::array<std::span<const double>, 1> ringing{noise};
    const RingWhitener whitener(ringing, 20);
    CHECK(power(whitener.apply(noise)) == Approx(1.0).epsilon(0.05));
}

TEST_CASE("an autoregression is whitened by the filter that made it", "[dsp]") {
    // x[i] = 1.6·x[i−1] − 0.9·x[i−2] + e: the Yule–Walker equations give those coefficients back.
    Random random(4);
    std::vector<double> x(40000, 0.0);
    for (std::size_t i = 2; i < x.size(); ++i) {
        x[i] = 1.6 * x[i - 1] - 0.9 * x[i - 2] + random.normal();
    }
    const std::array<std::span<const double>, 1> ringing{x};
    const RingWhitener whitener(ringing, 2);
    std::vector<double> impulse(8, 0.0);
    impulse[0] = 1.0;
    const auto taps = whitener.apply(impulse);
    CHECK(taps[1] == Approx(-1.6).margin(0.03));
    CHECK(taps[2] == Approx(0.9).margin(0.03));
    CHECK(taps[3] == Approx(0.0).margin(1e-12));
}

TEST_CASE("a second pluck inside the ring of the first stands out after whitening", "[dsp]") {
    std::vector<double> sound(16000, 0.0);
    ring(sound, 4000, 220.0);
    ring(sound, 4320, 221.0);
    Random random(5);
    for (double& x : sound) {
        x += 1e-4 * random.normal();
    }
    const std::array<std::span<const double>, 1> ringing{
        std::span<const double>(sound).subspan(6000, 8000)};
    const auto whitened = RingWhitener(ringing, 90).apply(sound);
    const double floor = quietestPower(whitened, kWhitenerRateHz, 0.05);
    const auto found = findBeginnings(whitened, kWhitenerRateHz, 2000, 8000, floor, 10.0);
    REQUIRE(found.size() >= 2);
    std::size_t near = 0;
    for (const Beginning& beginning : found) {
        const auto at = static_cast<double>(beginning.at);
        near += std::abs(at - 4000.0) < 24.0 || std::abs(at - 4320.0) < 24.0 ? 1U : 0U;
    }
    CHECK(near >= 2);
}

TEST_CASE("the likeliest change lies where the variance changes", "[dsp]") {
    Random random(6);
    std::vector<double> noise(4000);
    for (std::size_t i = 0; i < noise.size(); ++i) {
        noise[i] = random.normal() * (i < 2000 ? 0.1 : 1.0);
    }
    const std::size_t found = likeliestChange(noise, kWhitenerRateHz, 1950, 2050, 1e-9);
    CHECK(found >= 1996);
    CHECK(found <= 2004);
}
