// Error of the sustain pitch over its Cramér–Rao bound: compass × window at 25 dB, strings of one direction of
// motion. The bound is that of a stiff comb with free pitch, B, glide and phases; amplitude and decay decouple
// [Yao1995]. Below 1 the priors help.
#include "core/dsp/single_string.hpp"
#include "tests/bench/limit_string.hpp"

#include <Eigen/Dense>

#include <cstdio>
#include <cstdlib>

namespace {

using namespace quillbench;
using bench::LimitString;

constexpr std::array<double, 4> kWindows{0.3, 0.5, 1.0, 2.0};
constexpr double kSnrDb = 25.0;

/// Least standard deviation of the sustain pitch, in cents, from the sound up to `window`.
double boundCents(const LimitString& drawn, double window) {
    const test::PluckedString& string = drawn.string;
    constexpr double kStep = 0.002; // seconds; every sample between says the same
    Eigen::Matrix3d information = Eigen::Matrix3d::Zero();
    for (int n = 1; n <= drawn.countedPartials(); ++n) {
        const double turn = 2.0 * std::numbers::pi * string.partial(n) * bench::kCent;
        Eigen::Matrix3d squares = Eigen::Matrix3d::Zero();
        Eigen::Vector3d sum = Eigen::Vector3d::Zero();
        double weights = 0.0;
        for (double t = 0.5 * kStep; t < window; t += kStep) {
            const double amplitude = string.amplitude(n) * std::exp(-string.decay(n) * t);
            const double weight =
                0.5 * std::pow(amplitude / string.noise, 2.0) * kStep * string.rateHz;
            const Eigen::Vector3d row =
                turn * Eigen::Vector3d(t, drawn.stiffnessSlope(n) * t, string.energyIntegral(t));
            squares += weight * row * row.transpose();
            sum += weight * row;
            weights += weight;
        }
        information += squares - sum * sum.transpose() / weights;
    }
    const Eigen::Vector3d gradient(1.0, 0.0, drawn.sustainPerGlide());
    return std::sqrt(gradient.dot(information.ldlt().solve(gradient)));
}

} // namespace

int main(int argc, char** argv) {
    const int trials = argc > 1 ? std::atoi(argv[1]) : 12;
    if (trials < 1) {
        std::fputs("usage: pitch_limit_table [TRIALS], a whole number from 1 on\n", stderr);
        return 2;
    }
    const SampleRate rate(48000.0);
    std::puts("RMSE in cents (and over the bound), 25 dB\n    Hz          0.3 s           0.5 s"
              "             1 s             2 s");
    for (const double hz : {41.0, 82.0, 165.0, 330.0, 660.0, 1320.0, 2640.0}) {
        std::array<double, kWindows.size()> squares{};
        std::array<double, kWindows.size()> bounds{};
        for (int trial = 0; trial < trials; ++trial) {
            const LimitString drawn = bench::drawString(hz,
                                                        kSnrDb,
                                                        static_cast<std::uint64_t>(hz * 100.0) +
                                                            static_cast<std::uint64_t>(trial));
            const auto sound = drawn.string.render();
            ListeningFor what;
            what.target = Hertz(drawn.string.pitchHz);
            const FrameIndex pluck(static_cast<std::int64_t>(drawn.string.before * rate.hz()));
            const auto readings = readingsAfter(pluck, what, sound, rate, kWindows);
            for (std::size_t w = 0; w < kWindows.size(); ++w) {
                const double bound = boundCents(drawn, kWindows[w]);
                const double error =
                    std::log(readings[w].pitch.value() / drawn.sustainHz()) / bench::kCent;
                squares[w] += error * error / trials;
                bounds[w] += bound * bound / trials;
            }
        }
        std::printf("%6.0f", hz);
        for (std::size_t w = 0; w < kWindows.size(); ++w) {
            std::printf(
                "  %6.3f (%5.2f)", std::sqrt(squares[w]), std::sqrt(squares[w] / bounds[w]));
        }
        std::puts("");
        std::fflush(stdout);
    }
    return 0;
}
