#pragma once

#include "core/support/result.hpp"
#include "core/units/frames.hpp"
#include "core/units/hertz.hpp"

#include <span>

namespace quillbench {

/// A tone whose pitch is known from elsewhere: a time-signal station, a disciplined generator, a checked fork.
struct TrustedTone {
    Hertz frequency;
    double ppmUncertainty = 0.0; ///< one standard deviation of what is claimed for it
};

/// The clock error of a device that shows a trusted tone at `measured` (by its nominal rate), one standard deviation
/// `measuredUncertainty` in Hz. **Errors** BadArgument beyond ±1000 ppm: then it is another tone, or the device runs at
/// another rate than it says.
[[nodiscard]] Result<ClockCalibration>
calibrateClock(const TrustedTone& tone, Hertz measured, double measuredUncertainty);

/// The same from the captured sound of a steady tone, at least five seconds of it. **Accuracy** 0.1 ppm over 10 s at
/// 440 Hz and 40 dB signal to noise ("a trusted tone gives the clock error"). **Errors** NothingFound where no steady
/// tone is heard near the trusted frequency.
[[nodiscard]] Result<ClockCalibration>
calibrateClock(const TrustedTone& tone, std::span<const float> samples, SampleRate nominal);

} // namespace quillbench
