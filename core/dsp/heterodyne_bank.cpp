#include "core/dsp/heterodyne_bank.hpp"

#include "core/dsp/constants.hpp"
#include "core/support/contract.hpp"

#include <cmath>

namespace quillbench {

namespace {

/// Four running sums: the order of addition is fixed, and the processor may work on them side by side.
double dot(const double* a, const double* b, std::size_t count) {
    double s0 = 0.0;
    double s1 = 0.0;
    double s2 = 0.0;
    double s3 = 0.0;
    std::size_t i = 0;
    for (; i + 4 <= count; i += 4) {
        s0 += a[i] * b[i];
        s1 += a[i + 1] * b[i + 1];
        s2 += a[i + 2] * b[i + 2];
        s3 += a[i + 3] * b[i + 3];
    }
    for (; i < count; ++i) {
        s0 += a[i] * b[i];
    }
    return (s0 + s1) + (s2 + s3);
}

} // namespace

HeterodyneBank::HeterodyneBank(double rateHz, std::size_t longestFrame, std::size_t mostFrames)
    : rateHz_(rateHz),
      longestFrame_(longestFrame),
      mostFrames_(mostFrames) {
    EXPECTS(longestFrame >= 16 && mostFrames >= 8);
    references_.reserve(kMostPartials);
    hann_.reserve(longestFrame);
    cosines_.resize(kMostPartials * longestFrame);
    sines_.resize(kMostPartials * longestFrame);
    tracks_.resize(kMostPartials * mostFrames);
}

void HeterodyneBank::begin(std::size_t start,
                           std::size_t length,
                           std::span<const double> referencesHz) {
    EXPECTS(length >= 16 && length <= longestFrame_ && referencesHz.size() <= kMostPartials);
    start_ = start;
    length_ = length;
    hop_ = length / 4;
    frames_ = 0;
    references_.assign(referencesHz.begin(), referencesHz.end());
    const double middle = (static_cast<double>(length) - 1.0) / 2.0;
    // Hann sums to half its length: with the factor 2 of a real line's half, amplitude 1 reads as 1.
    const double scale = 4.0 / static_cast<double>(length + 1);
    hann_.resize(length);
    for (std::size_t i = 0; i < length; ++i) {
        const double place = (static_cast<double>(i) + 1.0) / static_cast<double>(length + 1);
        hann_[i] = scale * (0.5 - 0.5 * std::cos(kTwoPi * place));
    }
    for (std::size_t p = 0; p < references_.size(); ++p) {
        const double step = kTwoPi * references_[p] / rateHz_;
        double* cosines = cosines_.data() + p * length_;
        double* sines = sines_.data() + p * length_;
        const std::complex<double> turn = std::polar(1.0, step);
        std::complex<double> phasor = std::polar(1.0, -step * middle);
        for (std::size_t i = 0; i < length; ++i) {
            cosines[i] = hann_[i] * phasor.real();
            sines[i] = hann_[i] * phasor.imag();
            phasor *= turn;
        }
    }
}

double HeterodyneBank::time(std::size_t frame) const {
    const double middle =
        static_cast<double>(start_ + frame * hop_) + (static_cast<double>(length_) - 1.0) / 2.0;
    return middle / rateHz_;
}

void HeterodyneBank::extend(std::span<const double> samples) {
    while (frames_ < mostFrames_ && start_ + frames_ * hop_ + length_ <= samples.size()) {
        const double* x = samples.data() + start_ + frames_ * hop_;
        const double t = time(frames_);
        for (std::size_t p = 0; p < references_.size(); ++p) {
            const double re = dot(x, cosines_.data() + p * length_, length_);
            const double im = -dot(x, sines_.data() + p * length_, length_);
            const double cycles = references_[p] * t;
            const double angle = -kTwoPi * (cycles - std::floor(cycles));
            tracks_[p * mostFrames_ + frames_] =
                std::complex<double>(re, im) * std::polar(1.0, angle);
        }
        ++frames_;
    }
}

} // namespace quillbench
