#pragma once

#include "core/pitch/note.hpp"
#include "core/units/hertz.hpp"

namespace quillbench {

/// The pitch standard: the note that is fixed from outside, and where. A4 = 415 Hz unless said otherwise.
/// **Range** hz > 0; harpsichord pitches lie between about 370 and 570 Hz for A4 [Ellis1880].
struct ReferencePitch {
    Hertz hz{415.0};
    Note note{PitchClass{Letter::A, 0}, 4};

    bool operator==(const ReferencePitch&) const = default;
};

/// ISO 16:1975: A4 = 440 Hz, to be held within ±0.5 Hz when tuning. **Source** [ISO16] (clause from memory).
inline constexpr Hertz kIso16Pitch{440.0};
inline constexpr double kIso16ToleranceHz = 0.5;

} // namespace quillbench
