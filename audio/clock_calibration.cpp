#include "audio/clock_calibration.hpp"

#include "audio/tone_follower.hpp"
#include "core/support/contract.hpp"

#include <cmath>
#include <string>

namespace quillbench {
namespace {

constexpr double kMostPpm = 1000.0; // sound cards stay within 100; ten times that is another tone

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
    ToneFollower follower(tone, nominal);
    follower.push(samples);
    return follower.reading();
}

} // namespace quillbench
