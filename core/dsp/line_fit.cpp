#include "core/dsp/line_fit.hpp"

#include "core/support/contract.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numbers>

namespace quillbench {

namespace {

using Complex = std::complex<double>;
constexpr double kTurn = 2.0 * std::numbers::pi;
constexpr double kTiny = 1e-300;
// Variance of a mean of Hann frames that overlap by three quarters, against independent ones.
constexpr double kOverlapVariance = 2.67;
constexpr double kFastestDecay = 60.0; // 1/s: 60 dB in 0.12 s
constexpr double kFastestGrowth = 3.0; // 1/s: a beat's rise, automatic gain
constexpr int kSteps = 6;

/// Sums of the normal equations of [e, t·e] for the line e = exp(rate·t).
struct Sums {
    double s0 = 0;
    double s1 = 0;
    double s2 = 0;
    Complex b0;
    Complex b1;
};

Sums sumsFor(std::span<const Complex> frames, double hop, Complex rate) {
    Sums sums;
    const Complex turn = std::exp(rate * hop);
    Complex e = 1.0;
    for (std::size_t k = 0; k < frames.size(); ++k) {
        const double t = static_cast<double>(k) * hop;
        const double w = std::norm(e);
        sums.s0 += w;
        sums.s1 += w * t;
        sums.s2 += w * t * t;
        const Complex product = std::conj(e) * frames[k];
        sums.b0 += product;
        sums.b1 += product * t;
        e *= turn;
    }
    return sums;
}

Complex startingRate(std::span<const Complex> frames, double hop) {
    Complex turn = 0.0;
    double power = 0.0;
    for (std::size_t k = 0; k + 1 < frames.size(); ++k) {
        turn += frames[k + 1] * std::conj(frames[k]);
        power += std::norm(frames[k]);
    }
    const double fall = -std::log(std::max(std::abs(turn), kTiny) / std::max(power, kTiny)) / hop;
    return {-std::clamp(fall, 0.0, 40.0), std::arg(turn) / hop};
}

} // namespace

DampedLine fitDampedLine(std::span<const Complex> frames, double hop) {
    EXPECTS(frames.size() >= 3);
    const double longest = static_cast<double>(frames.size()) * hop;
    Complex rate = startingRate(frames, hop);
    for (int step = 0; step < kSteps; ++step) {
        const Sums sums = sumsFor(frames, hop, rate);
        const double det = sums.s0 * sums.s2 - sums.s1 * sums.s1 + kTiny;
        const Complex c = (sums.s2 * sums.b0 - sums.s1 * sums.b1) / det;
        const Complex d = (sums.s0 * sums.b1 - sums.s1 * sums.b0) / det;
        Complex move = std::norm(c) > kTiny ? d / c : Complex(0.0);
        const double most = 1.5 / longest;
        if (std::abs(move) > most) {
            move *= most / std::abs(move);
        }
        rate += move;
        rate = {std::clamp(rate.real(), -kFastestDecay, kFastestGrowth), rate.imag()};
    }
    const Sums sums = sumsFor(frames, hop, rate);
    DampedLine line;
    line.amplitude = sums.b0 / (sums.s0 + kTiny);
    line.offsetHz = rate.imag() / kTurn;
    line.decay = -rate.real();
    double left = 0.0;
    const Complex turn = std::exp(rate * hop);
    Complex e = line.amplitude;
    for (const Complex& frame : frames) {
        left += std::norm(frame - e);
        e *= turn;
    }
    line.residual = left / std::max(1.0, static_cast<double>(frames.size()) - 2.0);
    const double information = std::norm(line.amplitude) * (sums.s2 - sums.s1 * sums.s1 / sums.s0);
    line.offsetSd =
        std::sqrt(kOverlapVariance * line.residual / 2.0 / (information + kTiny)) / kTurn;
    return line;
}

} // namespace quillbench
