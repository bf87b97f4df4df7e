#include "core/dsp/line_fit.hpp"
#include "core/support/random.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>
#include <vector>

using namespace quillbench;

namespace {

std::vector<std::complex<double>>
damped(double offsetHz, double decay, double hop, std::size_t count, double noise, Random& random) {
    std::vector<std::complex<double>> frames;
    for (std::size_t k = 0; k < count; ++k) {
        const double t = static_cast<double>(k) * hop;
        frames.push_back(
            std::polar(std::exp(-decay * t), 0.7 + 2.0 * std::numbers::pi * offsetHz * t) +
            noise * std::complex<double>(random.normal(), random.normal()));
    }
    return frames;
}

} // namespace

TEST_CASE("a clean damped line is found exactly", "[dsp]") {
    Random random(1);
    const double offset = GENERATE(-4.0, 0.0, 0.3, 6.0);
    const double decay = GENERATE(0.2, 5.0, 20.0);
    const DampedLine line = fitDampedLine(damped(offset, decay, 0.005, 60, 0.0, random), 0.005);
    CHECK(line.offsetHz == Approx(offset).margin(1e-9));
    CHECK(line.decay == Approx(decay).epsilon(1e-9));
    CHECK(std::abs(line.amplitude) == Approx(1.0));
}

TEST_CASE("in noise the line fit stays near the Cramér–Rao bound", "[dsp]") {
    // Bound of a damped line, independent complex noise [Yao1995]: var f = s²/(2·Σe²·(t − t̄)²)/(2π)².
    Random random(7);
    constexpr double kHop = 0.01;
    constexpr double kNoise = 0.05;
    constexpr std::size_t kCount = 80;
    double s0 = 0.0;
    double s1 = 0.0;
    double s2 = 0.0;
    for (std::size_t k = 0; k < kCount; ++k) {
        const double t = static_cast<double>(k) * kHop;
        const double w = std::exp(-4.0 * t);
        s0 += w;
        s1 += w * t;
        s2 += w * t * t;
    }
    const double bound = kNoise / std::sqrt(s2 - s1 * s1 / s0) / (2.0 * std::numbers::pi);
    double sum = 0.0;
    constexpr int kTrials = 400;
    for (int trial = 0; trial < kTrials; ++trial) {
        const auto frames = damped(1.0, 2.0, kHop, kCount, kNoise, random);
        const double error = fitDampedLine(frames, kHop).offsetHz - 1.0;
        sum += error * error;
    }
    const double ratio = std::sqrt(sum / kTrials) / bound;
    CHECK(ratio > 0.9);
    CHECK(ratio < 1.15);
}
