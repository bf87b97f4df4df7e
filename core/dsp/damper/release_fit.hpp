#pragma once

#include "core/units/frames.hpp"
#include "core/units/hertz.hpp"

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace quillbench {

/// Level of one string over time, in Hann frames of 1.6 periods or 12 ms shifted to zero frequency by each
/// partial's expected place: partial by partial against its usual level, then the mean of the middle half, so
/// that knocks of jack and key, which hit some partials only, hardly count. **Source** the heterodyne filter
/// [Moorer1973].
struct CombPower {
    std::vector<double> db;    ///< one a hop; noise in it; relative
    double firstSeconds = 0.0; ///< middle of the first frame
    double hopSeconds = 0.002;
    double frameSeconds = 0.012; ///< length of a frame
    double floorDb = -200.0;     ///< what noise alone makes of `db`
    std::vector<double> sumDb;   ///< power of all partials together, against its greatest
    std::vector<std::vector<double>> partials; ///< power of each, one a hop
    std::size_t loudest = 0;   ///< frame of the greatest power of all partials together
    double loudestDb = -200.0; ///< that power re full scale
};

/// **Range** rate in hertz; string (partial 1) 15 to 4 000 Hz. Empty where the sound is shorter than a frame.
[[nodiscard]] CombPower
combPower(std::span<const double> sound, double rateHz, double stringHz, double inharmonicity);

/// How a string stopped when its key was let go.
struct ReleaseReading {
    bool found = false;
    bool weak = false;  ///< it stops, but when and how fast is in doubt
    Seconds release{0}; ///< when the damper takes hold
    Seconds releaseU{0};
    Seconds decay60{0}; ///< decay after it: 60 dB by the slope from −5 to −25 dB, room included
    Seconds decay60U{0};
    Seconds stop{0}; ///< from the release until the level has fallen 40 dB
    double residualDb =
        0.0; ///< what still sounds after the stop (or noise), against just before it
    /// Power of all partials (or noise) 0.5 to 0.8 s after the release, median, against just before it in decibels: what
    /// of the string no damper stops. Nothing where the sound ends before 0.6 s.
    std::optional<double> lingeringDb;
};

/// Finds the release after the loudest moment of the sound: steady ring, then a fall in two stages (damper, then
/// what room and undamped parts keep), then noise; robust least squares in decibels.
/// **Accuracy** tests/accuracy, set `damping`. **Source** decay from −5 to −25 dB of the backward integral
/// [Schroeder1965], [ISO3382].
[[nodiscard]] ReleaseReading
hearRelease(std::span<const float> samples, SampleRate rate, Hertz string);

} // namespace quillbench
