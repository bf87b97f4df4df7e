#include "core/instrument/compass.hpp"

#include "core/support/contract.hpp"

#include <algorithm>
#include <array>

namespace quillbench {

namespace {

/// Places in the chain of fifths of C C♯ D E♭ E F F♯ G G♯ A B♭ B.
constexpr std::array<int, 12> kUsualFifths{0, 7, 2, -3, 4, -1, 6, 1, 8, 3, -2, 5};

constexpr std::array<bool, 12> kIsSharp{
    false, true, false, true, false, false, true, false, true, false, true, false};

/// How many naturals lie below a MIDI number, counted from number 0.
int naturalsBelow(int midiNumber) {
    int count = midiNumber / 12 * 7;
    for (int chroma = 0; chroma < midiNumber % 12; ++chroma) {
        count += kIsSharp[static_cast<std::size_t>(chroma)] ? 0 : 1;
    }
    return count;
}

bool isSharp(int midiNumber) {
    return kIsSharp[static_cast<std::size_t>(midiNumber % 12)];
}

/// A key that stands at the place of `place` and sounds `note`.
Key keyAtPlace(int place, int leftmost, const Note& note, const char* shape = nullptr) {
    Key key;
    key.note = note;
    key.shape = isSharp(place) ? "sharp" : "natural";
    if (shape != nullptr) {
        key.shape = shape;
    }
    const double left = naturalsBelow(place) - naturalsBelow(leftmost);
    key.column = isSharp(place) ? left : left + 0.5;
    return key;
}

Key ordinaryKey(int midiNumber, int leftmost) {
    return keyAtPlace(midiNumber, leftmost, chromaticNote(midiNumber));
}

void addChromatic(Compass& compass, int from, int to, int leftmost) {
    for (int number = from; number <= to; ++number) {
        compass.keys.push_back(ordinaryKey(number, leftmost));
    }
}

constexpr int kG1 = 31;
constexpr int kA1 = 33;
constexpr int kB1 = 35;
constexpr int kC2 = 36;
constexpr int kD2 = 38;
constexpr int kE2 = 40;
constexpr int kF2 = 41;
constexpr int kG2 = 43;
constexpr int kA2 = 45;

} // namespace

Note chromaticNote(int midiNumber) {
    EXPECTS(midiNumber >= 0 && midiNumber <= 127);
    const auto chroma = static_cast<std::size_t>(midiNumber % 12);
    return Note{pitchClassAtFifth(kUsualFifths[chroma]),
                static_cast<std::int8_t>(midiNumber / 12 - 1)};
}

Compass chromaticCompass(const Note& low, const Note& high) {
    const int first = low.midiNumber();
    const int last = high.midiNumber();
    EXPECTS(first < last);
    Compass compass;
    compass.bassOctave = "chromatic";
    addChromatic(compass, first, last, first);
    return compass;
}

Compass shortOctaveCE(const Note& high) {
    EXPECTS(high.midiNumber() > kA2);
    Compass compass;
    compass.bassOctave = "short C/E";
    compass.keys = {keyAtPlace(kE2, kE2, chromaticNote(kC2)),
                    keyAtPlace(kF2 + 1, kE2, chromaticNote(kD2)),
                    keyAtPlace(kG2 + 1, kE2, chromaticNote(kE2)),
                    ordinaryKey(kF2, kE2),
                    ordinaryKey(kG2, kE2)};
    addChromatic(compass, kA2, high.midiNumber(), kE2);
    return compass;
}

Compass shortOctaveGGBB(const Note& high) {
    EXPECTS(high.midiNumber() > kE2);
    Compass compass;
    compass.bassOctave = "short GG/BB";
    compass.keys = {keyAtPlace(kB1, kB1, chromaticNote(kG1)),
                    keyAtPlace(kC2 + 1, kB1, chromaticNote(kA1)),
                    keyAtPlace(kD2 + 1, kB1, chromaticNote(kB1)),
                    ordinaryKey(kC2, kB1),
                    ordinaryKey(kD2, kB1)};
    addChromatic(compass, kE2, high.midiNumber(), kB1);
    return compass;
}

Compass brokenOctaveCE(const Note& high) {
    EXPECTS(high.midiNumber() > kA2);
    Compass compass;
    compass.bassOctave = "broken C/E";
    compass.keys = {keyAtPlace(kE2, kE2, chromaticNote(kC2)),
                    keyAtPlace(kF2 + 1, kE2, chromaticNote(kD2), "sharp-front"),
                    keyAtPlace(kG2 + 1, kE2, chromaticNote(kE2), "sharp-front"),
                    ordinaryKey(kF2, kE2),
                    keyAtPlace(kF2 + 1, kE2, chromaticNote(kF2 + 1), "sharp-back"),
                    ordinaryKey(kG2, kE2),
                    keyAtPlace(kG2 + 1, kE2, chromaticNote(kG2 + 1), "sharp-back")};
    addChromatic(compass, kA2, high.midiNumber(), kE2);
    return compass;
}

Compass withSplitSharps(Compass compass, const std::vector<PitchClass>& spellings) {
    std::vector<Key> keys;
    for (const Key& key : compass.keys) {
        const bool cut =
            key.shape == "sharp" && key.note.pitchClass.alteration != 0 &&
            std::any_of(spellings.begin(), spellings.end(), [&](const PitchClass& spelling) {
                return spelling.chroma() == key.note.pitchClass.chroma();
            });
        if (!cut) {
            keys.push_back(key);
            continue;
        }
        const bool bearsSharp = key.note.pitchClass.alteration > 0;
        Key front = key;
        front.shape = "sharp-front";
        Key back = key;
        back.shape = "sharp-back";
        back.note.pitchClass =
            pitchClassAtFifth(key.note.pitchClass.fifthsFromC() + (bearsSharp ? -12 : 12));
        // The sharp spelling lies lower than the flat one in every temperament that tells them apart by
        // fifths narrower than equal.
        keys.push_back(bearsSharp ? front : back);
        keys.push_back(bearsSharp ? back : front);
    }
    compass.keys = std::move(keys);
    return compass;
}

} // namespace quillbench
