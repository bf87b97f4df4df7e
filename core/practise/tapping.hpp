#pragma once

#include "core/units/beat_rate.hpp"
#include "core/units/frames.hpp"

#include <optional>
#include <span>

namespace quillbench {

/// What taps along with a beat say of its rate.
struct TappedRate {
    double perSecond = 0.0;   ///< beats, not taps
    double uncertainty = 0.0; ///< per second, one standard deviation
    int taps = 0;             ///< that were used
    int missed = 0;           ///< beats passed over between them
};

/// The rate of taps: instants against their number, by least squares. A tap twice as far from the one before as usual
/// passed one beat over; two within 40 % of the usual distance are one. How far taps scatter is learned from them, with
/// 40 ms taken as known beforehand (weight of four taps; people tap along with 10 to 40 ms [Repp2005], the range from
/// memory; a beat has no edge, so that the upper end is taken). **Range** instants ascending; each tap stands for
/// `beatsPerTap` 1 … 8 beats. Nothing from fewer than three taps.
[[nodiscard]] std::optional<TappedRate> rateOfTaps(std::span<const Seconds> instants,
                                                   int beatsPerTap);

/// What a count is worth.
enum class CountVerdict {
    Right,
    Wrong,
    OtherPartials, ///< a true beat, but of partials higher up, a whole number of times as fast
    TooVague,      ///< too few or too uneven taps to say
};

struct CountScore {
    CountVerdict verdict = CountVerdict::TooVague;
    double error = 0.0; ///< tapped less measured, per second
    double errorUncertainty = 0.0;
    int multiple = 1; ///< OtherPartials: so many times as fast
};

/// Judges a count against what was measured in the sound. Right: within a tenth, or within what both may be wrong by
/// (two standard deviations). **Range** measured ≠ 0, its uncertainty ≥ 0 per second.
[[nodiscard]] CountScore
scoreCount(const TappedRate& tapped, BeatRate measured, double measuredUncertainty);

} // namespace quillbench
