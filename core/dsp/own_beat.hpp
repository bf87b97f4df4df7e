#pragma once

#include "core/dsp/phase_track.hpp"
#include "core/units/beat_rate.hpp"

#include <optional>
#include <span>

namespace quillbench {

/// A beat that a string makes alone.
struct OwnBeat {
    BeatRate rate;          ///< of partial 1; never negative
    double splitCents = 0;  ///< by which its partials are double
    double depthNepers = 0; ///< swing of the level about its fall, median of the partials that beat
};

/// Looks for one splitting, the same in cents for all lower partials, that makes their levels swing about
/// their fall: a false beat, of string, pin or bridge. Single partials that beat each in its own way (two
/// polarisations) are none. **Range** tracks of one string; under 0.8 s of sound nothing is found.
/// **Source** least-squares spectral fit at trial frequencies [Lomb1976].
[[nodiscard]] std::optional<OwnBeat> findOwnBeat(std::span<const PhaseTrack> tracks,
                                                 double pitchHz);

} // namespace quillbench
