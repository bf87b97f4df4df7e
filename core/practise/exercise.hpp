#pragma once

#include "core/instrument/instrument.hpp"
#include "core/pitch/interval.hpp"
#include "core/units/beat_rate.hpp"
#include "core/units/cents.hpp"
#include "core/units/hertz.hpp"

#include <cstddef>
#include <cstdint>
#include <functional>
#include <optional>
#include <vector>

namespace quillbench {

/// What a learner does with two strings that sound together.
enum class ExerciseKind {
    Count,         ///< tap along with the beat
    WhichWay,      ///< say whether the upper string is wide or narrow of pure
    BringTogether, ///< turn the pin until it is still
    LeaveALittle,  ///< turn the pin until it beats as the temperament wants
    Compare,       ///< say which of two sounds beats faster
};

/// Answered right or wrong: how hard the questions are decides where the ear stands. The others are set by the pin, and
/// what is left over is measured itself.
[[nodiscard]] bool isAnswered(ExerciseKind kind);

/// Part of the compass, by the partials that meet and therefore by what the ear listens to: the lower string's key.
enum class EarRegister {
    Bass,   ///< below C3
    Tenor,  ///< C3 to B3
    Middle, ///< C4 to B4
    Treble, ///< from C5
};

inline constexpr std::size_t kExerciseKinds = 5;
inline constexpr std::size_t kEarRegisters = 4;

/// Where a key lies.
[[nodiscard]] EarRegister registerOf(const Note& lower);

/// What two strings are practised on. The first two are strings of one key.
enum class PracticeInterval {
    Unison,
    FourFoot,
    Octave,
    Fifth,
    Fourth,
    MajorThird,
    MajorSixth,
    MinorThird,
    MinorSixth,
};

inline constexpr std::size_t kPracticeIntervals = 9;

/// The interval that the ear hears: a 4′ string against the 8′ of its key is an octave.
[[nodiscard]] IntervalKind intervalOf(PracticeInterval interval);

/// Whether temperaments leave a beat in it; unisons and octaves they keep pure.
[[nodiscard]] bool isTempered(PracticeInterval interval);

/// The multiple of the lowest partials that meet to which the ear is sent, by the pitch of the lower string.
[[nodiscard]] int listenedMultiple(PracticeInterval interval, Hertz lower);

/// What the difficulty of an exercise counts in, and its range.
struct DifficultyScale {
    double easiest = 1.0;
    double hardest = 1.0;
    double guessing = 0.0; ///< chance of being right without having heard anything
    double usual = 1.0;    ///< where somebody who begins is looked for first
};

/// Count: beats a second where the ear is sent to listen, faster is harder. WhichWay: cents from pure, nearer is harder.
/// Compare: by how many hundredths the faster beat is faster, fewer is harder. The others have no staircase:
/// what is left over is measured itself; the scale tells how far off the pin stands at first, in cents.
[[nodiscard]] DifficultyScale scaleOf(ExerciseKind kind);

/// One question. The strings' pitches are found from it by the sound (practice_pair).
struct Exercise {
    ExerciseKind kind = ExerciseKind::Count;
    PracticeInterval interval = PracticeInterval::Unison;
    StringId lower;
    StringId upper;
    Note lowerKey;
    Note upperKey;
    double level = 1.0;     ///< on scaleOf(kind)
    int multiple = 1;       ///< the ear is sent to this multiple of the lowest partials that meet
    BeatRate beat;          ///< at the lowest partials that meet, as it sounds at first; + = wide
    BeatRate second;        ///< Compare: what the second sound beats
    BeatRate wanted;        ///< what the pin should make of it; 0 but for LeaveALittle
    std::uint64_t seed = 1; ///< of the strings' own character and of the pin
};

/// What may be asked. An empty register: any.
struct ExerciseWish {
    ExerciseKind kind = ExerciseKind::Count;
    PracticeInterval interval = PracticeInterval::Unison;
    std::optional<EarRegister> earRegister;
};

/// The registers in which an interval can be practised on an instrument: where both keys exist and the partials that
/// meet lie below 3 kHz. Nothing where the instrument lacks the choir.
[[nodiscard]] std::vector<EarRegister> registersFor(const Instrument& instrument,
                                                    PracticeInterval interval);

/// Draws a question: the keys, the direction, the beat of `level`, or, to count, of the slowest that comes one and a
/// half times before these strings have died away. `pitchOfKey` gives the pitches of the temperament, by
/// which LeaveALittle is asked and cents become beats. The same seed gives the same question.
/// **Errors** nothing where the wish cannot be met on this instrument.
[[nodiscard]] std::optional<Exercise>
drawExercise(const Instrument& instrument,
             const ExerciseWish& wish,
             double level,
             const std::function<Hertz(const Note&)>& pitchOfKey,
             std::uint64_t seed);

} // namespace quillbench
