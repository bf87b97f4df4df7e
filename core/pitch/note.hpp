#pragma once

#include "core/support/result.hpp"

#include <compare>
#include <cstdint>
#include <string>
#include <string_view>

namespace quillbench {

enum class Letter : std::int8_t { C, D, E, F, G, A, B };

/// A pitch class as it is spelled: G♯ is not A♭.
struct PitchClass {
    Letter letter = Letter::C;
    std::int8_t alteration = 0; ///< −2 … +2, in chromatic semitones; sharp is +1

    auto operator<=>(const PitchClass&) const = default; // NOLINT(modernize-use-nullptr)

    /// Place in the chain of fifths: … E♭ −3, B♭ −2, F −1, C 0, G 1, D 2, A 3, E 4, B 5, F♯ 6 …
    [[nodiscard]] int fifthsFromC() const;

    /// 0 … 11, C = 0; the key of a keyboard with twelve notes to the octave.
    [[nodiscard]] int chroma() const;
};

/// The pitch class at a place in the chain of fifths. **Range** −15 … +19 (F♭♭ … B♯♯).
[[nodiscard]] PitchClass pitchClassAtFifth(int fifthsFromC);

/// A spelled note with its octave. The octave follows the letter: B♯3 sounds near C4.
struct Note {
    PitchClass pitchClass;
    std::int8_t octave = 4; ///< scientific numbering, C4 = middle C

    bool operator==(const Note&) const = default;

    /// Semitones above C4's place on a twelve-note keyboard, C4 = 60 (the MIDI 1.0 numbering).
    [[nodiscard]] int midiNumber() const;
};

/// "A3", "F#3", "Bb2" in plain ASCII: what the command line prints.
[[nodiscard]] std::string toAscii(const Note& note);

[[nodiscard]] std::string toAscii(PitchClass pitchClass);

/// "F♯3", "B♭2" for people.
[[nodiscard]] std::string toDisplay(const Note& note);

[[nodiscard]] std::string toDisplay(PitchClass pitchClass);

/// Reads scientific notation: a letter A–G in either case, # b ♯ ♭ (up to two), an octave −1 … 9.
/// **Errors** BadArgument, naming what was read and the form expected.
[[nodiscard]] Result<Note> parseNote(std::string_view text);

/// Reads a pitch class without octave: "C", "F#", "Eb".
[[nodiscard]] Result<PitchClass> parsePitchClass(std::string_view text);

} // namespace quillbench
