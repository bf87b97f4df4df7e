#include "core/pitch/note_names.hpp"

#include "core/support/excerpt.hpp"

#include <array>
#include <cctype>
#include <optional>

namespace quillbench {

namespace {

constexpr std::array<NoteNameRule, 8> kGrammar{{
    {"C D E F G A H", "C2 to B2: capital letters, the great octave"},
    {"c d e f g a h", "C3 to B3: small letters, the small octave"},
    {"c' c'' c'''", "C4, C5, C6: each prime after a small letter is an octave up"},
    {"C, C,,", "C1, C0: each comma after a capital letter is an octave down"},
    {"f# fis, eb es", "sharp as # or is, flat as b or es; es and as are E flat and A flat"},
    {"Bb bb H h", "B flat and B natural; a bare B is refused (German B flat, English B)"},
    {"CC", "refused: C1 by doubling, C2 in English organ pitch"},
    {"c4 C' c,", "refused: C4 or c'''' = C7; C3 or C4; C1 or C2"},
}};

constexpr std::string_view kSharpSign = "\u266f";
constexpr std::string_view kFlatSign = "\u266d";
constexpr std::string_view kPrimes[] = {"'", "\u2032", "\u2019", "\u02b9"};
constexpr std::string_view kCommas[] = {",", "\u201a", "\u0375"};
constexpr int kGreatOctave = 2;
constexpr int kSmallOctave = 3;

bool take(std::string_view& text, std::string_view what) {
    if (!text.starts_with(what)) {
        return false;
    }
    text.remove_prefix(what.size());
    return true;
}

template <std::size_t N>
int takeAll(std::string_view& text, const std::string_view (&marks)[N]) {
    int count = 0;
    for (bool found = true; found;) {
        found = false;
        for (const std::string_view mark : marks) {
            if (take(text, mark)) {
                ++count;
                found = true;
            }
        }
    }
    return count;
}

std::optional<Letter> letterOf(char lower) {
    switch (lower) {
    case 'c':
        return Letter::C;
    case 'd':
        return Letter::D;
    case 'e':
        return Letter::E;
    case 'f':
        return Letter::F;
    case 'g':
        return Letter::G;
    case 'a':
        return Letter::A;
    case 'b':
    case 'h':
        return Letter::B;
    default:
        return std::nullopt;
    }
}

/// Takes "#", "is", "b", "es" off the front, twice at most.
int takeAlteration(std::string_view& text, char lowerLetter) {
    int alteration = 0;
    const bool vowel = lowerLetter == 'e' || lowerLetter == 'a';
    for (int i = 0; i < 2; ++i) {
        if (alteration >= 0 && (take(text, "#") || take(text, kSharpSign) || take(text, "is"))) {
            ++alteration;
        } else if (alteration <= 0 && (take(text, "b") || take(text, kFlatSign) ||
                                       take(text, "es") || (i == 0 && vowel && take(text, "s")))) {
            --alteration;
        }
    }
    return alteration;
}

Unexpected<Error> refused(std::string_view text, const std::string& why) {
    return failure(ErrorCode::BadArgument, "'" + excerpt(text) + "' " + why);
}

std::string named(PitchClass pitchClass, int octave) {
    return toAscii(Note{pitchClass, static_cast<std::int8_t>(octave)});
}

} // namespace

std::span<const NoteNameRule> helmholtzGrammar() {
    return kGrammar;
}

std::string toHelmholtz(const Note& note) {
    std::string text = toDisplay(note.pitchClass);
    if (note.pitchClass.letter == Letter::B && note.pitchClass.alteration >= 0) {
        text.front() = 'H';
    }
    if (note.octave >= kSmallOctave) {
        text.front() = static_cast<char>(std::tolower(static_cast<unsigned char>(text.front())));
        text.append(static_cast<std::size_t>(note.octave - kSmallOctave), '\'');
    } else {
        text.append(static_cast<std::size_t>(kGreatOctave - note.octave), ',');
    }
    return text;
}

Result<Note> parseHelmholtz(std::string_view text) {
    const std::string generic =
        "is not a Helmholtz note name: write C for C2, c for C3, c' for C4, C, for C1, with # or b "
        "after the letter, H for B natural";
    if (text.empty()) {
        return refused(text, generic);
    }
    std::string_view rest = text;
    const bool capital = std::isupper(static_cast<unsigned char>(rest.front())) != 0;
    const auto lower = static_cast<char>(std::tolower(static_cast<unsigned char>(rest.front())));
    const auto letter = letterOf(lower);
    if (!letter) {
        return refused(text, generic);
    }
    rest.remove_prefix(1);
    const bool doubled = capital && !rest.empty() && rest.front() == text.front();
    if (doubled) {
        rest.remove_prefix(1);
    }
    const int alteration = takeAlteration(rest, lower);
    const PitchClass pitchClass{*letter, static_cast<std::int8_t>(alteration)};
    if (lower == 'b' && alteration >= 0) {
        return refused(text,
                       "can be read as B natural (English) or B flat (German): write H for B "
                       "natural, Bb for B flat");
    }
    if (lower == 'h' && alteration < 0) {
        return refused(text, generic);
    }
    if (doubled) {
        return refused(text,
                       "can be read as " + named(pitchClass, 1) + " (doubled letter) or " +
                           named(pitchClass, 2) + " (English organ pitch): write " +
                           toHelmholtz(Note{pitchClass, 1}) + " or " +
                           toHelmholtz(Note{pitchClass, 2}));
    }
    if (rest.size() == 1 && std::isdigit(static_cast<unsigned char>(rest.front())) != 0) {
        const int digit = rest.front() - '0';
        return refused(text,
                       "can be read as " + named(pitchClass, digit) + " (scientific) or " +
                           named(pitchClass, kSmallOctave + digit) +
                           " (Helmholtz with a number): write primes or commas, or leave out "
                           "--helmholtz");
    }
    const int primes = takeAll(rest, kPrimes);
    const int commas = takeAll(rest, kCommas);
    if (!rest.empty() || (primes > 0 && commas > 0) || primes > 6 || commas > 3) {
        return refused(text, generic);
    }
    if (capital && primes > 0) {
        return refused(
            text,
            "can be read as " + named(pitchClass, kGreatOctave + primes) +
                " (up from the great octave) or " + named(pitchClass, kSmallOctave + primes) +
                " (a small letter meant): write " +
                toHelmholtz(Note{pitchClass, static_cast<std::int8_t>(kGreatOctave + primes)}) +
                " or " +
                toHelmholtz(Note{pitchClass, static_cast<std::int8_t>(kSmallOctave + primes)}));
    }
    if (!capital && commas > 0) {
        return refused(
            text,
            "can be read as " + named(pitchClass, kSmallOctave - commas) +
                " (down from the small octave) or " + named(pitchClass, kGreatOctave - commas) +
                " (a capital letter meant): write " +
                toHelmholtz(Note{pitchClass, static_cast<std::int8_t>(kSmallOctave - commas)}) +
                " or " +
                toHelmholtz(Note{pitchClass, static_cast<std::int8_t>(kGreatOctave - commas)}));
    }
    const int octave = capital ? kGreatOctave - commas : kSmallOctave + primes;
    return Note{pitchClass, static_cast<std::int8_t>(octave)};
}

} // namespace quillbench
