#include "core/dsp/polarised_band.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <complex>
#include <numbers>
#include <vector>

using namespace quillbench;

namespace {

using Complex = std::complex<double>;
constexpr double kWholeTurn = 2.0 * std::numbers::pi;
constexpr double kPartialHz = 700.0;

/// A partial of two polarisations that are equally loud and opposed at `null`: a string's two-stage decay
/// [Weinreich1977]. `second`: the second one's size there against the first's.
Complex motion(double t, double null, double second) {
    const double u = t - null;
    return std::exp(-3.5 * u) - second * std::exp(-u) * std::polar(1.0, kWholeTurn * 0.4 * u);
}

PolarisedBandResult heardWith(double null, double second) {
    std::vector<double> times;
    std::vector<Complex> values;
    constexpr int kFrames = 200;
    times.reserve(kFrames);
    values.reserve(kFrames);
    for (int i = 0; i < kFrames; ++i) {
        times.push_back(0.06 + 0.012 * i);
        values.push_back(motion(times.back(), null, second));
    }
    Eigen::VectorXcd envelope(static_cast<Eigen::Index>(values.size()));
    for (std::size_t i = 0; i < values.size(); ++i) {
        envelope(static_cast<Eigen::Index>(i)) = values[i];
    }
    PolarisedPartial partial;
    partial.hz = kPartialHz;
    partial.lnDecay = std::log(3.5);
    partial.lnSlower = std::log(1.0 / 3.5);
    partial.warp = [](double t) { return t; };
    PolarisedBandPlan plan;
    plan.centre = kPartialHz;
    return fitPolarisedBand(times, envelope, {partial}, plan);
}

/// Least-squares slope of the phase from 0.1 to 2.5 s: the definition of a partial's mean frequency.
double meanHz(double null, double second) {
    double phase = 0.0;
    double st = 0.0;
    double stt = 0.0;
    double sp = 0.0;
    double stp = 0.0;
    double count = 0.0;
    constexpr double kStep = 0.001;
    for (int i = 0; i < 2400; ++i) {
        const double t = 0.1 + i * kStep;
        phase += std::arg(motion(t, null, second) * std::conj(motion(t - kStep, null, second)));
        count += 1.0;
        st += t;
        stt += t * t;
        sp += phase;
        stp += t * phase;
    }
    return kPartialHz + (stp - st * sp / count) / (stt - st * st / count) / kWholeTurn;
}

} // namespace

TEST_CASE("a null of two polarisations does not end a partial's mean frequency", "[dsp]") {
    const double second = GENERATE(0.9, 1.1); // the phase goes round one way or the other
    const PolarisedBandResult result = heardWith(0.8, second);
    CHECK(result.meanHz[0] == Approx(meanHz(0.8, second)).margin(0.01));
}

TEST_CASE("a mean frequency is fragile where the two polarisations nearly cancel", "[dsp]") {
    // A turn more or less in the middle of 2.4 s changes the slope by 6·¼/2.4 = 0.62 turns a second.
    const double there = meanHz(0.8, 0.9);
    const double otherwise = meanHz(0.8, 1.1);
    REQUIRE(std::abs(there - otherwise) > 0.4);
    CHECK(heardWith(0.8, 0.95).fragility[0] > 0.4 * std::abs(there - otherwise));
    CHECK(heardWith(0.8, 0.3).fragility[0] < 0.1);
}
