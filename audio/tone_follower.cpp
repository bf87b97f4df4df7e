#include "audio/tone_follower.hpp"

#include "core/support/contract.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <string>

namespace quillbench {
namespace {

constexpr Seconds kShortest{5.0};
constexpr Seconds kSegment{0.1};
// Segments overlap for following the phase, and every fourth, whose noise is its own, enters the fit.
constexpr std::size_t kStepsPerSegment = 4;
constexpr double kSteadyPhase = 0.3; // radians of scatter about the line; noise alone gives 1.8
constexpr double kSteadyLevel = 0.5; // weakest segment re the mean
constexpr std::size_t kFewestPoints = 10;
constexpr double kRadians = 2.0 * std::numbers::pi;

Unexpected<Error> notHeard(const TrustedTone& tone, const char* why) {
    return failure(ErrorCode::NothingFound,
                   "no steady tone is heard near " + std::to_string(tone.frequency.value()) +
                       " Hz (" + why +
                       "): bring it closer, keep the room quiet, and hold it for ten seconds");
}

} // namespace

/// A straight line through the phase.
struct ToneFollower::Fit {
    bool known = false;       ///< false: too short to say
    bool evenLoudness = true; ///< no segment falls far below the mean
    double slope = 0.0;       ///< radians a second
    double slopeUncertainty = 0.0;
    double scatter = 0.0; ///< radians
};

ToneFollower::ToneFollower(const TrustedTone& tone, SampleRate nominal)
    : tone_(tone),
      rate_(nominal) {
    EXPECTS(tone.frequency.value() > 2.0 / kSegment.count());
    EXPECTS(tone.frequency.value() < 0.45 * nominal.hz());
    const auto length = static_cast<std::size_t>(nominal.frames(kSegment).value());
    for (std::size_t i = 0; i < length; ++i) {
        const double place = (static_cast<double>(i) + 0.5) / static_cast<double>(length);
        const double hann = (1.0 - std::cos(kRadians * place)) / static_cast<double>(length);
        double periods = tone.frequency / Hertz(nominal.hz()) * static_cast<double>(i);
        periods -= std::floor(periods);
        weights_.push_back(std::polar(hann, -kRadians * periods));
    }
}

void ToneFollower::push(std::span<const float> samples) {
    pushed_ += samples.size();
    waiting_.insert(waiting_.end(), samples.begin(), samples.end());
    const std::size_t length = weights_.size();
    const std::size_t step = length / kStepsPerSegment;
    std::size_t used = 0;
    for (; used + length <= waiting_.size(); used += step) {
        std::complex<double> sum;
        for (std::size_t i = 0; i < length; ++i) {
            sum += weights_[i] * static_cast<double>(waiting_[used + i]);
        }
        double periods =
            tone_.frequency / Hertz(rate_.hz()) * static_cast<double>(consumed_ + used);
        periods -= std::floor(periods);
        values_.push_back(sum * std::polar(1.0, -kRadians * periods));
    }
    consumed_ += used;
    waiting_.erase(waiting_.begin(), waiting_.begin() + static_cast<std::ptrdiff_t>(used));
}

void ToneFollower::restart() {
    waiting_.clear();
    values_.clear();
    consumed_ = 0;
    pushed_ = 0;
}

Seconds ToneFollower::length() const {
    return rate_.duration(FrameCount(static_cast<std::int64_t>(pushed_)));
}

bool ToneFollower::isSteady() const {
    const Fit line = fit();
    return !line.known || (line.evenLoudness && line.scatter < kSteadyPhase);
}

ToneFollower::Fit ToneFollower::fit() const {
    Fit line;
    std::vector<double> time;
    std::vector<double> phase;
    double unwrapped = 0.0;
    double mean = 0.0;
    double weakest = values_.empty() ? 0.0 : std::abs(values_.front());
    const std::size_t step = weights_.size() / kStepsPerSegment;
    const double stepS = static_cast<double>(step) / rate_.hz();
    for (std::size_t i = 0; i < values_.size(); ++i) {
        mean += std::abs(values_[i]) / static_cast<double>(values_.size());
        weakest = std::min(weakest, std::abs(values_[i]));
        unwrapped +=
            i == 0 ? std::arg(values_[0]) : std::arg(values_[i] * std::conj(values_[i - 1]));
        if (i % kStepsPerSegment == 0) {
            time.push_back(stepS * static_cast<double>(i));
            phase.push_back(unwrapped);
        }
    }
    line.known = time.size() >= kFewestPoints;
    line.evenLoudness = mean > 0.0 && weakest >= kSteadyLevel * mean;
    if (!line.known) {
        return line;
    }
    const auto count = static_cast<double>(time.size());
    double meanTime = 0.0;
    double meanPhase = 0.0;
    for (std::size_t i = 0; i < time.size(); ++i) {
        meanTime += time[i] / count;
        meanPhase += phase[i] / count;
    }
    double sumTT = 0.0;
    double sumTP = 0.0;
    for (std::size_t i = 0; i < time.size(); ++i) {
        sumTT += (time[i] - meanTime) * (time[i] - meanTime);
        sumTP += (time[i] - meanTime) * (phase[i] - meanPhase);
    }
    line.slope = sumTP / sumTT;
    double squares = 0.0;
    double neighbours = 0.0;
    double before = 0.0;
    for (std::size_t i = 0; i < time.size(); ++i) {
        const double residual = phase[i] - meanPhase - line.slope * (time[i] - meanTime);
        squares += residual * residual;
        neighbours += residual * before;
        before = residual;
    }
    line.scatter = std::sqrt(squares / (count - 2.0));
    // A slow wander makes neighbours alike; the fit then knows less than its scatter says (first-order
    // autoregression).
    const double alike = squares > 0.0 ? std::clamp(neighbours / squares, 0.0, 0.9) : 0.0;
    line.slopeUncertainty =
        line.scatter / std::sqrt(sumTT) * std::sqrt((1.0 + alike) / (1.0 - alike));
    return line;
}

Result<ClockCalibration> ToneFollower::reading() const {
    if (pushed_ < static_cast<std::size_t>(rate_.frames(kShortest).value())) {
        return notHeard(tone_, "less than five seconds of sound");
    }
    const Fit line = fit();
    if (!line.evenLoudness) {
        return notHeard(tone_, "its loudness varies");
    }
    if (!(line.scatter < kSteadyPhase)) {
        return notHeard(tone_, "its pitch is not steady");
    }
    return calibrateClock(tone_,
                          Hertz(tone_.frequency.value() + line.slope / kRadians),
                          line.slopeUncertainty / kRadians);
}

} // namespace quillbench
