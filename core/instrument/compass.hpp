#pragma once

#include "core/instrument/instrument.hpp"

#include <vector>

namespace quillbench {

/// The note at a MIDI number as a keyboard of twelve usually spells it: C C♯ D E♭ E F F♯ G G♯ A B♭ B.
/// **Range** 0 … 127.
[[nodiscard]] Note chromaticNote(int midiNumber);

/// Every semitone from `low` to `high`. **Range** low below high; both ends naturals or sharps.
[[nodiscard]] Compass chromaticCompass(const Note& low, const Note& high);

/// C/E short octave: the lowest key looks like E and sounds C2, the F♯ key sounds D2, the G♯ key E2; from F2
/// up the naturals are themselves, from A2 all keys are. **Source** common practice, no source.
[[nodiscard]] Compass shortOctaveCE(const Note& high);

/// GG/BB short octave: the lowest key looks like BB and sounds GG (G1), the C♯ key AA (A1), the E♭ key
/// BB (B1); C2, D2 and everything from E2 are themselves. **Source** common practice, no source.
[[nodiscard]] Compass shortOctaveGGBB(const Note& high);

/// Broken octave on C/E: as the short octave, but the two lowest sharps are cut across: the front halves
/// sound D2 and E2, the back halves F♯2 and G♯2. **Source** common practice, no source.
[[nodiscard]] Compass brokenOctaveCE(const Note& high);

/// Cuts every whole sharp that bears one of `spellings`' places into two: the front half keeps its spelling, the
/// back half takes the other (E♭ in front, D♯ behind; G♯ in front, A♭ behind). Give either spelling.
[[nodiscard]] Compass withSplitSharps(Compass compass, const std::vector<PitchClass>& spellings);

} // namespace quillbench
