#include "core/practise/practice_output.hpp"

#include "core/support/contract.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>

namespace quillbench {

namespace {

constexpr Seconds kFade{0.02};
constexpr double kBandQ = 5.5; // centre over width between the −3 dB points: 18 %
constexpr double kNarrowGain = 2.0;
constexpr double kStraight = 0.5; // of the ceiling: up to there the output only multiplies

/// Straight up to half the ceiling, then bending towards it.
double held(double sample) {
    const double size = std::abs(sample);
    const double straight = kStraight * kOutputCeiling;
    if (size <= straight) {
        return sample;
    }
    const double room = kOutputCeiling - straight;
    return std::copysign(straight + room * std::tanh((size - straight) / room), sample);
}

double towards(double now, double aim, double step) {
    return now < aim ? std::min(aim, now + step) : std::max(aim, now - step);
}

} // namespace

PracticeOutput::PracticeOutput(SampleRate rate) : rate_(rate), fade_(rate.frames(kFade)) {
    EXPECTS(rate.hz() >= 8000.0 && rate.hz() <= 192000.0);
    tail_.resize(static_cast<std::size_t>(fade_.value()));
    setLevel(kQuietStartDb);
    level_ = levelAim_;
}

void PracticeOutput::setLevel(double decibels) {
    levelAim_ = std::pow(10.0, std::clamp(decibels, kQuietestDb, kLoudestDb) / 20.0);
}

void PracticeOutput::hearOnly(std::optional<Hertz> centre) {
    narrowAim_ = centre ? 1.0 : 0.0;
    if (!centre) {
        return;
    }
    EXPECTS(centre->value() > 0.0 && 3.0 * centre->value() < rate_.hz());
    const double turn = 2.0 * std::numbers::pi * centre->value() / rate_.hz();
    const double alpha = std::sin(turn) / (2.0 * kBandQ);
    b0_ = alpha / (1.0 + alpha);
    a1_ = -2.0 * std::cos(turn) / (1.0 + alpha);
    a2_ = (1.0 - alpha) / (1.0 + alpha);
}

void PracticeOutput::addTail(std::span<const float> tail) {
    tailSize_ = std::min(tail.size(), tail_.size());
    std::copy_n(tail.begin(), tailSize_, tail_.begin());
    tailDone_ = 0;
}

void PracticeOutput::addSound(std::vector<float> sound) {
    if (soundDone_ < sound_.size()) {
        addTail(std::span(sound_).subspan(soundDone_));
    }
    sound_ = std::move(sound);
    soundDone_ = 0;
}

double PracticeOutput::narrowed(double sample) noexcept {
    for (Section& section : sections_) {
        const double out = b0_ * (sample - section.x2) - a1_ * section.y1 - a2_ * section.y2;
        section.x2 = section.x1;
        section.x1 = sample;
        section.y2 = section.y1;
        section.y1 = out;
        sample = out;
    }
    return kNarrowGain * sample;
}

void PracticeOutput::process(std::span<float> samples) noexcept {
    const double step = 1.0 / static_cast<double>(fade_.value());
    for (float& sample : samples) {
        level_ = towards(level_, levelAim_, step);
        narrow_ = towards(narrow_, narrowAim_, step);
        auto in = static_cast<double>(sample);
        if (tailDone_ < tailSize_) {
            const double left =
                1.0 - static_cast<double>(tailDone_) / static_cast<double>(tailSize_);
            in += left * static_cast<double>(tail_[tailDone_]);
            ++tailDone_;
        }
        if (soundDone_ < sound_.size()) {
            in += static_cast<double>(sound_[soundDone_]);
            ++soundDone_;
        }
        const double only = narrowed(in);
        sample = static_cast<float>(held(level_ * ((1.0 - narrow_) * in + narrow_ * only)));
    }
}

} // namespace quillbench
