#pragma once

#include "core/pitch/note.hpp"

#include <QString>

namespace quillbench {

/// What a pitch class is called.
enum class NoteWords {
    Letters, ///< C, F♯, E♭, B♭, B
    German,  ///< C, Fis, Es, B, H
    Solfege, ///< do, fa♯, mi♭, si♭, si; do stands still
};

/// How the octave of a note is told.
enum class OctaveSigns {
    Scientific, ///< C4 is middle C
    Helmholtz,  ///< c′ is middle C, from C₁ by C and c to c‴
};

/// How notes are named.
struct NoteNaming {
    NoteWords words = NoteWords::Letters;
    OctaveSigns octaves = OctaveSigns::Scientific;

    bool operator==(const NoteNaming&) const = default;
};

/// What is usual in the language the window speaks: in German H, B and Helmholtz's octaves, else letters and numbers.
[[nodiscard]] NoteNaming usualNaming();

/// How noteText() names notes from now on; letters and numbers at first. One for the whole program, as QLocale's default
/// is. **Thread** GUI.
void nameNotes(const NoteNaming& naming);

/// The naming in use.
[[nodiscard]] NoteNaming noteNaming();

/// "F♯", "Fis", "fa♯".
[[nodiscard]] QString nameOf(PitchClass pitchClass, NoteWords words);

/// "F♯3", "fis", "Fis₁", "fa♯3". In solfège a capital tells Helmholtz's great octave: "Fa♯", "fa♯", "fa♯′".
[[nodiscard]] QString nameOf(const Note& note, const NoteNaming& naming);

/// By the naming in use: "F♯".
[[nodiscard]] QString noteText(PitchClass pitchClass);

/// By the naming in use: "F♯3".
[[nodiscard]] QString noteText(const Note& note);

} // namespace quillbench
