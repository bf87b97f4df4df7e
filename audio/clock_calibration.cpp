#include "audio/clock_calibration.hpp"

#include "core/support/contract.hpp"

#include <algorithm>
#include <cmath>
#include <complex>
#include <numbers>
#include <vector>

namespace quillbench {
namespace {

constexpr double kMostPpm = 1000.0; // sound cards stay within 100; ten times that is another tone
constexpr Seconds kShortest{5.0};
constexpr Seconds kSegment{0.1};
// Segments overlap for following the phase, and every fourth, whose noise is its own, enters the fit.
constexpr std::size_t kStepsPerSegment = 4;
constexpr double kSteadyPhase = 0.3; // radians of scatter about the line; noise alone gives 1.8
constexpr double kSteadyLevel = 0.5; // weakest segment re the mean

Unexpected<Error> notHeard(const TrustedTone& tone, const char* why) {
    return failure(ErrorCode::NothingFound,
                   "no steady tone is heard near " + std::to_string(tone.frequency.value()) +
                       " Hz (" + why +
                       "): bring it closer, keep the room quiet, and hold it for ten seconds");
}

/// The sound against the tone's own frequency, one value for each step: amplitude and phase.
std::vector<std::complex<double>>
demodulate(std::span<const float> samples, SampleRate rate, Hertz tone) {
    const auto length = static_cast<std::size_t>(rate.frames(kSegment).value());
    const std::size_t step = length / kStepsPerSegment;
    std::vector<std::complex<double>> values;
    for (std::size_t start = 0; start + length <= samples.size(); start += step) {
        std::complex<double> sum;
        for (std::size_t i = 0; i < length; ++i) {
            const double hann =
                1.0 - std::cos(2.0 * std::numbers::pi * (static_cast<double>(i) + 0.5) /
                               static_cast<double>(length));
            double periods = tone / Hertz(rate.hz()) * static_cast<double>(start + i);
            periods -= std::floor(periods);
            sum += hann * static_cast<double>(samples[start + i]) *
                   std::polar(1.0, -2.0 * std::numbers::pi * periods);
        }
        values.push_back(sum / static_cast<double>(length));
    }
    return values;
}

} // namespace

Result<ClockCalibration>
calibrateClock(const TrustedTone& tone, Hertz measured, double measuredUncertainty) {
    EXPECTS(tone.frequency.value() > 0.0);
    EXPECTS(measured.value() > 0.0);
    // A card that runs fast takes more samples of each period: the tone seems flat.
    const double ppm = (tone.frequency / measured - 1.0) * 1e6;
    if (!(std::fabs(ppm) <= kMostPpm)) {
        return failure(
            ErrorCode::BadArgument,
            "the tone is heard at " + std::to_string(measured.value()) + " Hz, " +
                std::to_string(std::lround(ppm)) +
                " ppm from the trusted one; a clock errs by less than 1000 ppm: check which "
                "tone it is, and the rate of the device");
    }
    const double measuredPpm = measuredUncertainty / measured.value() * 1e6;
    return ClockCalibration{ppm, std::hypot(measuredPpm, tone.ppmUncertainty)};
}

Result<ClockCalibration>
calibrateClock(const TrustedTone& tone, std::span<const float> samples, SampleRate nominal) {
    EXPECTS(tone.frequency.value() > 2.0 / kSegment.count());
    EXPECTS(tone.frequency.value() < 0.45 * nominal.hz());
    if (samples.size() < static_cast<std::size_t>(nominal.frames(kShortest).value())) {
        return notHeard(tone, "less than five seconds of sound");
    }
    const auto values = demodulate(samples, nominal, tone.frequency);
    double mean = 0.0;
    double weakest = std::abs(values.front());
    for (const auto& value : values) {
        mean += std::abs(value) / static_cast<double>(values.size());
        weakest = std::min(weakest, std::abs(value));
    }
    if (mean <= 0.0 || weakest < kSteadyLevel * mean) {
        return notHeard(tone, "its loudness varies");
    }
    std::vector<double> time;
    std::vector<double> phase;
    double unwrapped = std::arg(values.front());
    const double stepS =
        std::floor(nominal.hz() * kSegment.count() / kStepsPerSegment) / nominal.hz();
    for (std::size_t i = 0; i < values.size(); ++i) {
        unwrapped += i == 0 ? 0.0 : std::arg(values[i] * std::conj(values[i - 1]));
        if (i % kStepsPerSegment == 0) {
            time.push_back(stepS * static_cast<double>(i));
            phase.push_back(unwrapped);
        }
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
    const double slope = sumTP / sumTT; // radians a second
    double squares = 0.0;
    double neighbours = 0.0;
    double before = 0.0;
    for (std::size_t i = 0; i < time.size(); ++i) {
        const double residual = phase[i] - meanPhase - slope * (time[i] - meanTime);
        squares += residual * residual;
        neighbours += residual * before;
        before = residual;
    }
    const double scatter = std::sqrt(squares / (count - 2.0));
    if (!(scatter < kSteadyPhase)) {
        return notHeard(tone, "its pitch is not steady");
    }
    // A slow wander makes neighbours alike; the fit then knows less than its scatter says (first-order
    // autoregression).
    const double alike = squares > 0.0 ? std::clamp(neighbours / squares, 0.0, 0.9) : 0.0;
    const double slopeUncertainty =
        scatter / std::sqrt(sumTT) * std::sqrt((1.0 + alike) / (1.0 - alike));
    constexpr double kRadians = 2.0 * std::numbers::pi;
    return calibrateClock(
        tone, Hertz(tone.frequency.value() + slope / kRadians), slopeUncertainty / kRadians);
}

} // namespace quillbench
