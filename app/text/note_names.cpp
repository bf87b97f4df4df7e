#include "app/text/note_names.hpp"

#include "app/text/translation.hpp"

#include <array>

namespace quillbench {

namespace {

constexpr int kSmallOctave = 3; // Helmholtz's small octave begins at C3
constexpr char16_t kPrimes[] = u"\u2032\u2033\u2034\u2057";
constexpr std::array<const char*, 7> kSolfege{"do", "re", "mi", "fa", "sol", "la", "si"};
constexpr std::array<const char*, 7> kGerman{"C", "D", "E", "F", "G", "A", "H"};

NoteNaming& namingInUse() {
    static NoteNaming naming;
    return naming;
}

/// Es, As and B are not Ees, Aes and Hes; the double flats follow them, but for Heses.
QString germanName(PitchClass pitchClass) {
    const QString letter =
        QString::fromLatin1(kGerman[static_cast<std::size_t>(pitchClass.letter)]);
    if (pitchClass.alteration >= 0) {
        return letter + QStringLiteral("is").repeated(pitchClass.alteration);
    }
    if (pitchClass.letter == Letter::B) {
        return pitchClass.alteration == -1 ? QStringLiteral("B") : QStringLiteral("Heses");
    }
    const bool vowel = pitchClass.letter == Letter::E || pitchClass.letter == Letter::A;
    return letter + QStringLiteral("es").repeated(-pitchClass.alteration).sliced(vowel ? 1 : 0);
}

QString withSigns(QString name, int alteration) {
    for (int i = 0; i < alteration; ++i) {
        name += QChar(0x266f);
    }
    for (int i = 0; i > alteration; --i) {
        name += QChar(0x266d);
    }
    return name;
}

/// Great octave capital, small one small; lines above the one, figures below the other.
QString inHelmholtz(QString name, int octave) {
    const int lines = octave - kSmallOctave;
    if (lines < 0) {
        name[0] = name[0].toUpper();
        const int below = -lines - 1;
        return below > 0 ? name + QChar(static_cast<char16_t>(0x2080 + below)) : name;
    }
    name[0] = name[0].toLower();
    if (lines > 4) {
        return name + QString::number(lines);
    }
    return lines > 0 ? name + QChar(kPrimes[lines - 1]) : name;
}

} // namespace

NoteNaming usualNaming() {
    return spokenLanguage() == Language::German
               ? NoteNaming{NoteWords::German, OctaveSigns::Helmholtz}
               : NoteNaming{};
}

void nameNotes(const NoteNaming& naming) {
    namingInUse() = naming;
}

NoteNaming noteNaming() {
    return namingInUse();
}

QString nameOf(PitchClass pitchClass, NoteWords words) {
    const auto letter = static_cast<std::size_t>(pitchClass.letter);
    switch (words) {
    case NoteWords::Letters:
        break;
    case NoteWords::German:
        return germanName(pitchClass);
    case NoteWords::Solfege:
        return withSigns(QString::fromLatin1(kSolfege[letter]), pitchClass.alteration);
    }
    return withSigns(QString(QLatin1Char("CDEFGAB"[letter])), pitchClass.alteration);
}

QString nameOf(const Note& note, const NoteNaming& naming) {
    const QString name = nameOf(note.pitchClass, naming.words);
    return naming.octaves == OctaveSigns::Helmholtz ? inHelmholtz(name, note.octave)
                                                    : name + QString::number(note.octave);
}

QString noteText(PitchClass pitchClass) {
    return nameOf(pitchClass, namingInUse().words);
}

QString noteText(const Note& note) {
    return nameOf(note, namingInUse());
}

} // namespace quillbench
