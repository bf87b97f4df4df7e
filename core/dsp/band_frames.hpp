#pragma once

#include "core/units/frames.hpp"

#include <complex>
#include <span>
#include <vector>

namespace quillbench {

/// Narrow bands of a sound as complex envelopes: Hann frames heterodyned to each band's centre.
/// A partial near a centre becomes a slowly turning, decaying exponential. **Source** [Portnoff1980].
struct BandFrames {
    std::vector<double> times;   ///< s, middle of each frame, on the sound's own time axis
    std::vector<double> centres; ///< Hz
    std::vector<std::vector<std::complex<double>>>
        envelopes; ///< [band][frame], amplitude of a line at the centre
};

/// What to cut out of a sound. **Range** 0 ≤ start < stop ≤ duration; frame > 0; hop > 0 (s).
struct BandFramesPlan {
    Seconds start{0};
    Seconds stop{0};
    Seconds frame{0}; ///< length of the Hann window
    Seconds hop{0};
};

/// Samples are full scale ±1 at `rate`; centres lie below half the rate. No frame leaves [start, stop].
[[nodiscard]] BandFrames cutBandFrames(std::span<const double> samples,
                                       SampleRate rate,
                                       const BandFramesPlan& plan,
                                       std::span<const double> centresHz);

} // namespace quillbench
