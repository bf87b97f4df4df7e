#include "core/pitch/interval.hpp"

#include "core/support/contract.hpp"

#include <array>
#include <cmath>

namespace quillbench {

namespace {

constexpr std::array<Interval, 14> kIntervals{{
    {IntervalKind::Unison, "unison", "unison", 0, 0, {1, 1}},
    {IntervalKind::MinorThird, "minor-third", "minor third", 3, -3, {6, 5}},
    {IntervalKind::MajorThird, "major-third", "major third", 4, 4, {5, 4}},
    {IntervalKind::Fourth, "fourth", "fourth", 5, -1, {4, 3}},
    {IntervalKind::Fifth, "fifth", "fifth", 7, 1, {3, 2}},
    {IntervalKind::MinorSixth, "minor-sixth", "minor sixth", 8, -4, {8, 5}},
    {IntervalKind::MajorSixth, "major-sixth", "major sixth", 9, 3, {5, 3}},
    {IntervalKind::Octave, "octave", "octave", 12, 0, {2, 1}},
    {IntervalKind::MinorTenth, "minor-tenth", "minor tenth", 15, -3, {12, 5}},
    {IntervalKind::Tenth, "tenth", "tenth", 16, 4, {5, 2}},
    {IntervalKind::Twelfth, "twelfth", "twelfth", 19, 1, {3, 1}},
    {IntervalKind::Fifteenth, "fifteenth", "fifteenth", 24, 0, {4, 1}},
    {IntervalKind::Seventeenth, "seventeenth", "seventeenth", 28, 4, {5, 1}},
    {IntervalKind::Nineteenth, "nineteenth", "nineteenth", 31, 1, {6, 1}},
}};

/// The note of this spelling on the key `midi`.
Note spelledAt(PitchClass pitchClass, int midi) {
    const Note inOctaveFour{pitchClass, 4};
    const int octaves = (midi - inOctaveFour.midiNumber()) / 12;
    return Note{pitchClass, static_cast<std::int8_t>(4 + octaves)};
}

} // namespace

Cents Interval::pureSize() const {
    return Cents(1200.0 *
                 std::log2(static_cast<double>(pair.ofLower) / static_cast<double>(pair.ofUpper)));
}

std::span<const Interval> intervals() {
    return kIntervals;
}

const Interval& intervalOf(IntervalKind kind) {
    const auto place = static_cast<std::size_t>(kind);
    EXPECTS(place < kIntervals.size() && kIntervals[place].kind == kind);
    return kIntervals[place];
}

const Interval* findInterval(std::string_view id) {
    for (const Interval& each : kIntervals) {
        if (each.id == id) {
            return &each;
        }
    }
    return nullptr;
}

std::optional<IntervalKind> intervalOfKeys(const Note& lower, const Note& upper) {
    const int semitones = upper.midiNumber() - lower.midiNumber();
    for (const Interval& each : kIntervals) {
        if (each.semitones == semitones) {
            return each.kind;
        }
    }
    return std::nullopt;
}

std::optional<IntervalKind> intervalAsSpelled(const Note& lower, const Note& upper) {
    const auto kind = intervalOfKeys(lower, upper);
    if (!kind || upper.pitchClass.fifthsFromC() - lower.pitchClass.fifthsFromC() !=
                     intervalOf(*kind).fifths) {
        return std::nullopt;
    }
    return kind;
}

std::optional<Note> noteAbove(const Note& lower, IntervalKind kind) {
    const Interval& interval = intervalOf(kind);
    const int place = lower.pitchClass.fifthsFromC() + interval.fifths;
    if (place < -15 || place > 19) {
        return std::nullopt;
    }
    return spelledAt(pitchClassAtFifth(place), lower.midiNumber() + interval.semitones);
}

BeatRate beatRate(PartialPair pair, Hertz lower, Hertz upper) {
    EXPECTS(lower.value() > 0.0 && upper.value() > 0.0);
    return upper * static_cast<double>(pair.ofUpper) - lower * static_cast<double>(pair.ofLower);
}

BeatRate beatRate(IntervalKind kind, Hertz lower, Hertz upper) {
    return beatRate(intervalOf(kind).pair, lower, upper);
}

Cents widthFromPure(IntervalKind kind, Hertz lower, Hertz upper) {
    return interval(lower, upper) - intervalOf(kind).pureSize();
}

Hertz upperAtBeat(IntervalKind kind, Hertz lower, BeatRate beat) {
    EXPECTS(lower.value() > 0.0);
    const PartialPair pair = intervalOf(kind).pair;
    return Hertz((beat.perSecond() + pair.ofLower * lower.value()) / pair.ofUpper);
}

Hertz lowerAtBeat(IntervalKind kind, Hertz upper, BeatRate beat) {
    EXPECTS(upper.value() > 0.0);
    const PartialPair pair = intervalOf(kind).pair;
    return Hertz((pair.ofUpper * upper.value() - beat.perSecond()) / pair.ofLower);
}

} // namespace quillbench
