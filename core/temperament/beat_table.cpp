#include "core/temperament/beat_table.hpp"

#include "core/support/contract.hpp"

#include <algorithm>

namespace quillbench {

namespace {

PitchClass fifthsAbove(const Temperament& temperament, PitchClass note, int fifths) {
    const int place = note.fifthsFromC() + fifths;
    // Twelve fifths make the same key on a circle; staying inside the named range loses nothing.
    const int wrapped = place > 19 ? place - 12 : (place < -15 ? place + 12 : place);
    return temperament.played(pitchClassAtFifth(wrapped));
}

} // namespace

BeatEntry beatEntry(const TunedScale& scale, const Note& lower, const Note& upper) {
    const auto kind = intervalOfKeys(lower, upper);
    EXPECTS(kind.has_value());
    const Hertz low = scale.pitchOf(lower);
    const Hertz high = scale.pitchOf(upper);
    return {lower, upper, *kind, widthFromPure(*kind, low, high), beatRate(*kind, low, high)};
}

std::vector<Note>
keysBetween(const Temperament& temperament, const Note& lowest, const Note& highest) {
    const int from = lowest.midiNumber();
    const int to = highest.midiNumber();
    EXPECTS(from <= to);
    std::vector<Note> keys;
    for (int octave = lowest.octave - 1; octave <= highest.octave + 1; ++octave) {
        for (const PitchClass& each : temperament.notes()) {
            const Note key{each, static_cast<std::int8_t>(octave)};
            if (key.midiNumber() >= from && key.midiNumber() <= to) {
                keys.push_back(key);
            }
        }
    }
    const ReferencePitch anyPitch;
    std::sort(keys.begin(), keys.end(), [&](const Note& a, const Note& b) {
        const int left = a.midiNumber();
        const int right = b.midiNumber();
        return left != right
                   ? left < right
                   : pitchOf(temperament, anyPitch, a) < pitchOf(temperament, anyPitch, b);
    });
    return keys;
}

std::vector<BeatEntry> beatTable(const TunedScale& scale,
                                 const Note& lowest,
                                 const Note& highest,
                                 std::span<const IntervalKind> kinds) {
    const std::vector<Note> keys = keysBetween(scale.temperament, lowest, highest);
    const bool circle = scale.temperament.isCircle();
    std::vector<BeatEntry> table;
    for (const IntervalKind kind : kinds) {
        for (const Note& lower : keys) {
            for (const Note& upper : keys) {
                if (intervalOfKeys(lower, upper) == kind &&
                    (circle || intervalAsSpelled(lower, upper) == kind)) {
                    table.push_back(beatEntry(scale, lower, upper));
                }
            }
        }
    }
    return table;
}

std::vector<ThirdSize> thirdsOf(const Temperament& temperament, bool major) {
    const Interval& third = intervalOf(major ? IntervalKind::MajorThird : IntervalKind::MinorThird);
    std::vector<ThirdSize> thirds;
    for (const PitchClass& lower : temperament.notes()) {
        const PitchClass upper = fifthsAbove(temperament, lower, third.fifths);
        const bool asSpelled = upper.fifthsFromC() - lower.fifthsFromC() == third.fifths;
        if (!asSpelled && !temperament.isCircle()) {
            continue;
        }
        const Cents size = Cents(100.0 * third.semitones) + temperament.offsetFromEqual(upper) -
                           temperament.offsetFromEqual(lower);
        thirds.push_back({lower, upper, major, asSpelled, size - third.pureSize()});
    }
    return thirds;
}

} // namespace quillbench
