#include "core/pitch/note.hpp"

#include "core/support/contract.hpp"
#include "core/support/excerpt.hpp"

#include <array>
#include <cctype>
#include <optional>

namespace quillbench {

namespace {

constexpr std::array<int, 7> kSemitoneOfLetter{0, 2, 4, 5, 7, 9, 11};
constexpr std::array<int, 7> kFifthOfLetter{0, 2, 4, -1, 1, 3, 5};
constexpr std::string_view kLetters = "CDEFGAB";
constexpr std::string_view kSharp = "\u266f";
constexpr std::string_view kFlat = "\u266d";

/// Takes a letter and its accidentals off the front of `text`.
std::optional<PitchClass> takePitchClass(std::string_view& text) {
    if (text.empty()) {
        return std::nullopt;
    }
    const auto upper = static_cast<char>(std::toupper(static_cast<unsigned char>(text.front())));
    const std::size_t place = kLetters.find(upper);
    if (place == std::string_view::npos) {
        return std::nullopt;
    }
    text.remove_prefix(1);
    int alteration = 0;
    while (!text.empty()) {
        int step = 0;
        std::size_t length = 1;
        if (text.front() == '#') {
            step = 1;
        } else if (text.front() == 'b') {
            step = -1;
        } else if (text.substr(0, kSharp.size()) == kSharp) {
            step = 1;
            length = kSharp.size();
        } else if (text.substr(0, kFlat.size()) == kFlat) {
            step = -1;
            length = kFlat.size();
        } else {
            break;
        }
        if (alteration * step < 0) {
            return std::nullopt;
        }
        alteration += step;
        text.remove_prefix(length);
    }
    if (alteration < -2 || alteration > 2) {
        return std::nullopt;
    }
    return PitchClass{static_cast<Letter>(place), static_cast<std::int8_t>(alteration)};
}

std::string spelled(PitchClass pitchClass, std::string_view sharp, std::string_view flat) {
    std::string text(1, kLetters[static_cast<std::size_t>(pitchClass.letter)]);
    for (int i = 0; i < pitchClass.alteration; ++i) {
        text += sharp;
    }
    for (int i = 0; i > pitchClass.alteration; --i) {
        text += flat;
    }
    return text;
}

} // namespace

int PitchClass::fifthsFromC() const {
    return kFifthOfLetter[static_cast<std::size_t>(letter)] + 7 * alteration;
}

int PitchClass::chroma() const {
    return ((kSemitoneOfLetter[static_cast<std::size_t>(letter)] + alteration) % 12 + 12) % 12;
}

PitchClass pitchClassAtFifth(int fifthsFromC) {
    EXPECTS(fifthsFromC >= -15 && fifthsFromC <= 19);
    constexpr std::array<Letter, 7> kOrder{
        Letter::F, Letter::C, Letter::G, Letter::D, Letter::A, Letter::E, Letter::B};
    const int place = fifthsFromC + 1;
    const int index = ((place % 7) + 7) % 7;
    const int alteration = (place - index) / 7;
    return PitchClass{kOrder[static_cast<std::size_t>(index)],
                      static_cast<std::int8_t>(alteration)};
}

int Note::midiNumber() const {
    return 12 * (octave + 1) + kSemitoneOfLetter[static_cast<std::size_t>(pitchClass.letter)] +
           pitchClass.alteration;
}

std::string toAscii(PitchClass pitchClass) {
    return spelled(pitchClass, "#", "b");
}

std::string toAscii(const Note& note) {
    return toAscii(note.pitchClass) + std::to_string(note.octave);
}

std::string toDisplay(PitchClass pitchClass) {
    return spelled(pitchClass, kSharp, kFlat);
}

std::string toDisplay(const Note& note) {
    return toDisplay(note.pitchClass) + std::to_string(note.octave);
}

Result<PitchClass> parsePitchClass(std::string_view text) {
    std::string_view rest = text;
    const auto pitchClass = takePitchClass(rest);
    if (!pitchClass || !rest.empty()) {
        return failure(ErrorCode::BadArgument,
                       "'" + excerpt(text) +
                           "' is not a note name: write a letter A to G with # or b, such as Eb");
    }
    return *pitchClass;
}

Result<Note> parseNote(std::string_view text) {
    std::string_view rest = text;
    const auto pitchClass = takePitchClass(rest);
    const bool negative = !rest.empty() && rest.front() == '-';
    if (negative) {
        rest.remove_prefix(1);
    }
    if (!pitchClass || rest.size() != 1 ||
        std::isdigit(static_cast<unsigned char>(rest.front())) == 0 ||
        (negative && rest.front() != '1')) {
        return failure(ErrorCode::BadArgument,
                       "'" + excerpt(text) +
                           "' is not a note: write a letter A to G, # or b if any, and an octave "
                           "from -1 to 9, such as F#3 (C4 is middle C)");
    }
    const int octave = (rest.front() - '0') * (negative ? -1 : 1);
    return Note{*pitchClass, static_cast<std::int8_t>(octave)};
}

} // namespace quillbench
