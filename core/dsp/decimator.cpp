#include "core/dsp/decimator.hpp"

#include "core/support/contract.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace quillbench {

namespace {

constexpr double kLowestOutputHz = 14500.0; // leaves 2.5 kHz or more for the transition
constexpr double kStopDb = 95.0;

double besselI0(double x) {
    double sum = 1.0;
    double term = 1.0;
    for (int k = 1; k < 60; ++k) {
        term *= (x / (2.0 * k)) * (x / (2.0 * k));
        sum += term;
    }
    return sum;
}

/// Kaiser's low-pass: unit gain at 0 Hz, odd length.
std::vector<double> lowPass(double rateHz, double passHz, double stopHz) {
    const double width = 2.0 * std::numbers::pi * (stopHz - passHz) / rateHz;
    const auto half = static_cast<int>(std::ceil((kStopDb - 7.95) / (2.285 * width) / 2.0));
    const double beta = 0.1102 * (kStopDb - 8.7);
    const double cut = (passHz + stopHz) / rateHz; // as a fraction of the Nyquist frequency
    std::vector<double> taps;
    double sum = 0.0;
    for (int i = -half; i <= half; ++i) {
        const double x = std::numbers::pi * cut * i;
        const double sinc = i == 0 ? 1.0 : std::sin(x) / x;
        const double place = static_cast<double>(i) / (half + 1);
        taps.push_back(sinc * besselI0(beta * std::sqrt(1.0 - place * place)));
        sum += taps.back();
    }
    for (double& tap : taps) {
        tap /= sum;
    }
    return taps;
}

} // namespace

Decimator::Decimator(SampleRate rate)
    : rateHz_(rate.hz()),
      factor_(std::max(1, static_cast<int>(rate.hz() / kLowestOutputHz))) {
    EXPECTS(rateHz_ > 7900.0 && rateHz_ < 193000.0);
    taps_ = factor_ == 1 ? std::vector<double>{1.0}
                         : lowPass(rateHz_, kPassHz, rateHz_ / factor_ - kPassHz);
    recent_.assign(2 * taps_.size(), 0.0);
}

void Decimator::begin(std::int64_t origin, std::int64_t first) {
    origin_ = origin;
    nextInput_ = first;
    const std::int64_t behind = first - origin;
    nextOutput_ = behind >= 0 ? (behind + factor_ - 1) / factor_ : -((-behind) / factor_);
    std::fill(recent_.begin(), recent_.end(), 0.0);
    write_ = 0;
}

void Decimator::push(std::span<const float> samples, std::vector<double>& out) {
    const std::size_t count = taps_.size();
    std::int64_t due = origin_ + nextOutput_ * factor_ + lookAhead();
    for (const float sample : samples) {
        recent_[write_] = static_cast<double>(sample);
        recent_[write_ + count] = static_cast<double>(sample);
        write_ = write_ + 1 == count ? 0 : write_ + 1;
        if (nextInput_ == due) {
            const double* oldest = recent_.data() + write_;
            double sum = 0.0;
            for (std::size_t i = 0; i < count; ++i) {
                sum += taps_[i] * oldest[i];
            }
            out.push_back(sum);
            ++nextOutput_;
            due += factor_;
        }
        ++nextInput_;
    }
}

} // namespace quillbench
