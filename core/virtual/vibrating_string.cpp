#include "core/virtual/vibrating_string.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>

namespace quillbench {

namespace {

constexpr double kInaudible = 1e-7; // −140 dB re full scale
constexpr double kTiny = 1e-300;

double sumOf(const VibratingString::Lanes& lanes) {
    double sum = 0.0;
    for (std::size_t l = 0; l < VibratingString::kLanes; ++l) {
        sum += lanes[l];
    }
    return sum;
}

} // namespace

VibratingString::VibratingString(const StringVoice& voice, double rateHz)
    : voice_(voice),
      rateHz_(rateHz) {
    for (std::size_t m = 0; m < voice.modes; ++m) {
        const std::size_t number = m / 2 + 1;
        const double n = static_cast<double>(number);
        stretchWeight_[m / kLanes][m % kLanes] = n * n / (voice.pickup[m] * voice.pickup[m]);
    }
    damp(0.0, 0.0);
}

void VibratingString::tune(Hertz rest, double inharmonicity) {
    const double f0 = rest.value() / std::sqrt(1.0 + inharmonicity);
    for (std::size_t m = 0; m < voice_.modes; ++m) {
        const std::size_t number = m / 2 + 1;
        const double n = static_cast<double>(number);
        const double hz = n * f0 * std::sqrt(1.0 + inharmonicity * n * n) * voice_.split[m];
        angle_[m / kLanes][m % kLanes] = 2.0 * std::numbers::pi * hz / rateHz_;
    }
    setRotations();
}

void VibratingString::damp(double damperPart, double extraRate, double alongPart) {
    for (std::size_t m = 0; m < voice_.modes; ++m) {
        const double damper = damperPart * voice_.damped[m] * (m % 2 == 1 ? alongPart : 1.0);
        const double rate = voice_.decay[m] + damper + extraRate;
        loss_[m] = std::exp(-rate / rateHz_);
    }
    setRotations();
}

void VibratingString::setRotations() {
    for (std::size_t m = 0; m < voice_.modes; ++m) {
        restRe_[m / kLanes][m % kLanes] = loss_[m] * std::cos(restAngle(m));
        restIm_[m / kLanes][m % kLanes] = loss_[m] * std::sin(restAngle(m));
    }
}

void VibratingString::pluck(std::span<const double> shape, double strength) {
    for (std::size_t m = 0; m < voice_.modes; ++m) {
        im_[m / kLanes][m % kLanes] -=
            strength * shape[m / 2] * voice_.direction[m] * voice_.pickup[m];
    }
    groups_ = (voice_.modes + kLanes - 1) / kLanes;
}

void VibratingString::setMode(std::size_t m, std::complex<double> z) {
    re_[m / kLanes][m % kLanes] = z.real();
    im_[m / kLanes][m % kLanes] = z.imag();
    groups_ = std::max(groups_, m / kLanes + 1);
}

void VibratingString::addToMode(std::size_t m, std::complex<double> z) {
    setMode(m, mode(m) + z);
}

double VibratingString::stretch() const {
    Lanes sums{};
    for (std::size_t g = 0; g < groups_; ++g) {
        sums += stretchWeight_[g] * (re_[g] * re_[g] + im_[g] * im_[g]);
    }
    return sumOf(sums);
}

double VibratingString::power() const {
    Lanes sums{};
    for (std::size_t g = 0; g < groups_; ++g) {
        sums += re_[g] * re_[g] + im_[g] * im_[g];
    }
    return sumOf(sums);
}

bool VibratingString::prune() {
    while (groups_ > 0) {
        const std::size_t g = groups_ - 1;
        if (sumOf(re_[g] * re_[g] + im_[g] * im_[g]) > kInaudible * kInaudible) {
            return true;
        }
        re_[g] = Lanes{};
        im_[g] = Lanes{};
        --groups_;
    }
    return false;
}

void VibratingString::openSegment(double drift) {
    const double shift = sharpness() + drift;
    for (std::size_t g = 0; g < groups_; ++g) {
        // exp(i·d) by its series: d is below 0.02, the first term left out below 1e-16.
        const Lanes d = angle_[g] * shift;
        const Lanes d2 = d * d;
        const Lanes c = 1.0 - d2 * (0.5 - d2 * (1.0 / 24.0 - d2 / 720.0));
        const Lanes s = d * (1.0 - d2 * (1.0 / 6.0 - d2 * (1.0 / 120.0 - d2 / 5040.0)));
        const Lanes re = restRe_[g] * c - restIm_[g] * s;
        const Lanes im = restRe_[g] * s + restIm_[g] * c;
        // Lanes without a mode turn by 0: their square must not divide.
        const Lanes square = re * re + im * im;
        const Lanes once = 1.0 / (square + kTiny);
        const Lanes re1 = (re_[g] * re + im_[g] * im) * once;
        const Lanes im1 = (im_[g] * re - re_[g] * im) * once;
        turnRe_[g] = re;
        turnIm_[g] = im;
        feed_[g] = 2.0 * re;
        back_[g] = square;
        last_[g] = re1;
        lastButOne_[g] = (re1 * re + im1 * im) * once;
    }
}

void VibratingString::addTo(std::span<Lanes> rows) {
    for (std::size_t g = 0; g < groups_; ++g) {
        Lanes y1 = last_[g];
        Lanes y2 = lastButOne_[g];
        const Lanes feed = feed_[g];
        const Lanes back = back_[g];
        // Two frames at a time, so that no value has to be moved.
        std::size_t k = 0;
        for (; k + 1 < rows.size(); k += 2) {
            y2 = feed * y1 - back * y2;
            rows[k] += y2;
            y1 = feed * y2 - back * y1;
            rows[k + 1] += y1;
        }
        if (k < rows.size()) {
            y2 = feed * y1 - back * y2;
            rows[k] += y2;
            std::swap(y1, y2);
        }
        last_[g] = y1;
        lastButOne_[g] = y2;
    }
}

void VibratingString::closeSegment(std::size_t frames) {
    for (std::size_t g = 0; g < groups_; ++g) {
        Lanes re = re_[g];
        Lanes im = im_[g];
        Lanes turnRe = turnRe_[g];
        Lanes turnIm = turnIm_[g];
        for (std::size_t left = frames; left > 0; left >>= 1U) {
            if ((left & 1U) != 0) {
                const Lanes before = re;
                re = before * turnRe - im * turnIm;
                im = before * turnIm + im * turnRe;
            }
            const Lanes before = turnRe;
            turnRe = before * before - turnIm * turnIm;
            turnIm = 2.0 * before * turnIm;
        }
        re_[g] = re;
        im_[g] = im;
    }
}

} // namespace quillbench
