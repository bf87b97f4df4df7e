#include "core/virtual/vibrating_string.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace quillbench {

namespace {

constexpr double kInaudible = 1e-7; // −140 dB re full scale

} // namespace

VibratingString::VibratingString(const StringVoice& voice, double rateHz)
    : voice_(voice),
      rateHz_(rateHz) {
    for (std::size_t m = 0; m < voice.modes; ++m) {
        const double n = static_cast<double>(m / 2 + 1);
        stretchWeight_[m] = n * n / (voice.pickup[m] * voice.pickup[m]);
    }
    damp(0.0, 0.0);
}

void VibratingString::tune(Hertz rest, double inharmonicity) {
    const double f0 = rest.value() / std::sqrt(1.0 + inharmonicity);
    for (std::size_t m = 0; m < voice_.modes; ++m) {
        const double n = static_cast<double>(m / 2 + 1);
        const double hz = n * f0 * std::sqrt(1.0 + inharmonicity * n * n) * voice_.split[m];
        angle_[m] = 2.0 * std::numbers::pi * hz / rateHz_;
    }
    setRotations();
}

void VibratingString::damp(double damperPart, double extraRate) {
    for (std::size_t m = 0; m < voice_.modes; ++m) {
        const double rate = voice_.decay[m] + damperPart * voice_.damped[m] + extraRate;
        loss_[m] = std::exp(-rate / rateHz_);
    }
    setRotations();
}

void VibratingString::setRotations() {
    for (std::size_t m = 0; m < voice_.modes; ++m) {
        restRe_[m] = loss_[m] * std::cos(angle_[m]);
        restIm_[m] = loss_[m] * std::sin(angle_[m]);
    }
}

void VibratingString::pluck(std::span<const double> shape, double strength) {
    for (std::size_t m = 0; m < voice_.modes; ++m) {
        im_[m] -= strength * shape[m / 2] * voice_.direction[m] * voice_.pickup[m];
    }
    groups_ = (voice_.modes + kLanes - 1) / kLanes;
}

void VibratingString::setMode(std::size_t m, std::complex<double> z) {
    re_[m] = z.real();
    im_[m] = z.imag();
    groups_ = std::max(groups_, m / kLanes + 1);
}

void VibratingString::addToMode(std::size_t m, std::complex<double> z) {
    setMode(m, mode(m) + z);
}

double VibratingString::stretch() const {
    double sum = 0.0;
    for (std::size_t m = 0; m < groups_ * kLanes; ++m) {
        sum += stretchWeight_[m] * (re_[m] * re_[m] + im_[m] * im_[m]);
    }
    return sum;
}

double VibratingString::power() const {
    double sum = 0.0;
    for (std::size_t m = 0; m < groups_ * kLanes; ++m) {
        sum += re_[m] * re_[m] + im_[m] * im_[m];
    }
    return sum;
}

bool VibratingString::prune() {
    while (groups_ > 0) {
        double loudest = 0.0;
        for (std::size_t m = (groups_ - 1) * kLanes; m < groups_ * kLanes; ++m) {
            loudest = std::max(loudest, re_[m] * re_[m] + im_[m] * im_[m]);
        }
        if (loudest > kInaudible * kInaudible) {
            return true;
        }
        --groups_;
        for (std::size_t m = groups_ * kLanes; m < (groups_ + 1) * kLanes; ++m) {
            re_[m] = 0.0;
            im_[m] = 0.0;
        }
    }
    return false;
}

void VibratingString::silence() {
    re_.fill(0.0);
    im_.fill(0.0);
    groups_ = 0;
}

void VibratingString::openSegment(double drift) {
    const double shift = sharpness() + drift;
    const std::size_t end = groups_ * kLanes;
    for (std::size_t m = 0; m < end; ++m) {
        // exp(i·d) by its series: d is below 0.02, the first term left out below 1e-16.
        const double d = angle_[m] * shift;
        const double d2 = d * d;
        const double c = 1.0 - d2 * (0.5 - d2 * (1.0 / 24.0 - d2 / 720.0));
        const double s = d * (1.0 - d2 * (1.0 / 6.0 - d2 * (1.0 / 120.0 - d2 / 5040.0)));
        turnRe_[m] = restRe_[m] * c - restIm_[m] * s;
        turnIm_[m] = restRe_[m] * s + restIm_[m] * c;
        const double size = turnRe_[m] * turnRe_[m] + turnIm_[m] * turnIm_[m];
        feed_[m] = 2.0 * turnRe_[m];
        back_[m] = size;
        const double once = size > 0.0 ? 1.0 / size : 0.0;
        const double re1 = (re_[m] * turnRe_[m] + im_[m] * turnIm_[m]) * once;
        const double im1 = (im_[m] * turnRe_[m] - re_[m] * turnIm_[m]) * once;
        last_[m] = re1;
        lastButOne_[m] = (re1 * turnRe_[m] + im1 * turnIm_[m]) * once;
    }
}

void VibratingString::addTo(std::span<std::array<double, kLanes>> rows) {
    for (std::size_t g = 0; g < groups_; ++g) {
        std::array<double, kLanes> y1{};
        std::array<double, kLanes> y2{};
        std::array<double, kLanes> feed{};
        std::array<double, kLanes> back{};
        const std::size_t first = g * kLanes;
        for (std::size_t l = 0; l < kLanes; ++l) {
            y1[l] = last_[first + l];
            y2[l] = lastButOne_[first + l];
            feed[l] = feed_[first + l];
            back[l] = back_[first + l];
        }
        for (auto& row : rows) {
            for (std::size_t l = 0; l < kLanes; ++l) {
                const double y = feed[l] * y1[l] - back[l] * y2[l];
                y2[l] = y1[l];
                y1[l] = y;
                row[l] += y;
            }
        }
        for (std::size_t l = 0; l < kLanes; ++l) {
            last_[first + l] = y1[l];
            lastButOne_[first + l] = y2[l];
        }
    }
}

void VibratingString::closeSegment(std::size_t frames) {
    const std::size_t end = groups_ * kLanes;
    for (std::size_t left = frames; left > 0; left >>= 1U) {
        if ((left & 1U) != 0) {
            for (std::size_t m = 0; m < end; ++m) {
                const double re = re_[m] * turnRe_[m] - im_[m] * turnIm_[m];
                im_[m] = re_[m] * turnIm_[m] + im_[m] * turnRe_[m];
                re_[m] = re;
            }
        }
        if (left > 1) {
            for (std::size_t m = 0; m < end; ++m) {
                const double re = turnRe_[m] * turnRe_[m] - turnIm_[m] * turnIm_[m];
                turnIm_[m] = 2.0 * turnRe_[m] * turnIm_[m];
                turnRe_[m] = re;
            }
        }
    }
}

} // namespace quillbench
