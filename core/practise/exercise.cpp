#include "core/practise/exercise.hpp"

#include "core/instrument/sustain.hpp"
#include "core/support/contract.hpp"
#include "core/support/random.hpp"

#include <algorithm>
#include <cmath>

namespace quillbench {

namespace {

constexpr int kC3 = 48; // MIDI 1.0 numbering
constexpr int kC4 = 60;
constexpr int kC5 = 72;
constexpr double kHighestMeeting =
    3000.0; ///< Hz: above it little is left of a plucked string after a second
/// The ear is sent to partials from here on: below, a plucked string gives little and the ear hears less of it.
constexpr double kListenFrom = 350.0;
constexpr int kHighestListened = 6;
constexpr double kFastestAsked = 12.0; ///< beats a second that are asked for at the most
/// A rate is not told from fewer beats: from crest to crest, and the one before or after in part.
constexpr double kBeatsToCount = 1.5;
/// Compared are beats that are too fast to be counted one by one, the slower of the two within these.
constexpr double kSlowestCompared = 4.0;
constexpr double kFastestCompared = 7.0;
/// Beats worth leaving: slower ones do not show within a note, faster ones are not set by counting.
constexpr double kSlowestLeft = 0.25;
constexpr double kFastestLeft = 8.0;

struct PracticePlan {
    IntervalKind kind;
    const char* lowerChoir;
    const char* upperChoir;
};

/// Indexed by PracticeInterval.
constexpr PracticePlan kPlans[kPracticeIntervals] = {
    {IntervalKind::Unison, "8", "8b"},
    {IntervalKind::Octave, "8", "4"},
    {IntervalKind::Octave, "8", "8"},
    {IntervalKind::Fifth, "8", "8"},
    {IntervalKind::Fourth, "8", "8"},
    {IntervalKind::MajorThird, "8", "8"},
    {IntervalKind::MajorSixth, "8", "8"},
    {IntervalKind::MinorThird, "8", "8"},
    {IntervalKind::MinorSixth, "8", "8"},
};

const PracticePlan& planOf(PracticeInterval interval) {
    return kPlans[static_cast<std::size_t>(interval)];
}

struct KeyPair {
    Note lowerKey;
    Note upperKey;
    StringId lower;
    StringId upper;
};

bool ofOneKey(PracticeInterval interval) {
    return interval == PracticeInterval::Unison || interval == PracticeInterval::FourFoot;
}

std::vector<KeyPair> keyPairs(const Instrument& instrument, PracticeInterval interval) {
    const PracticePlan& plan = planOf(interval);
    const auto lowerChoir = choirOf(instrument, plan.lowerChoir);
    const auto upperChoir = choirOf(instrument, plan.upperChoir);
    std::vector<KeyPair> pairs;
    if (!lowerChoir || !upperChoir) {
        return pairs;
    }
    for (const Key& key : instrument.compass.keys) {
        const auto upperKey =
            ofOneKey(interval) ? std::optional<Note>(key.note) : noteAbove(key.note, plan.kind);
        const auto upper = upperKey ? keyOf(instrument.compass, *upperKey) : std::nullopt;
        // Only as it is spelled: G♯–E♭ is no fifth.
        if (!upper || !(instrument.compass.keys[*upper].note == *upperKey)) {
            continue;
        }
        const auto lower = stringOf(instrument, *lowerChoir, key.note);
        const auto upperString = stringOf(instrument, *upperChoir, *upperKey);
        if (lower && upperString &&
            nominalPitch(instrument, *lower).value() * intervalOf(plan.kind).pair.ofLower <
                kHighestMeeting) {
            pairs.push_back({key.note, *upperKey, *lower, *upperString});
        }
    }
    return pairs;
}

/// What a width makes at the partials that meet.
BeatRate beatOfWidth(PracticeInterval interval, Hertz lower, Cents width) {
    const IntervalKind kind = intervalOf(interval);
    const Hertz pure = upperAtBeat(kind, lower, BeatRate(0.0));
    return beatRate(kind, lower, transpose(pure, width));
}

/// The slowest beat where the ear is sent that comes often enough before the pair has died away.
double slowestCounted(PracticeInterval interval, Hertz lower) {
    const int partial =
        listenedMultiple(interval, lower) * intervalOf(intervalOf(interval)).pair.ofLower;
    return kBeatsToCount / heardFor(lower, Hertz(partial * lower.value())).count();
}

} // namespace

bool isAnswered(ExerciseKind kind) {
    return kind == ExerciseKind::Count || kind == ExerciseKind::WhichWay ||
           kind == ExerciseKind::Compare;
}

EarRegister registerOf(const Note& lower) {
    const int key = lower.midiNumber();
    return key < kC3   ? EarRegister::Bass
           : key < kC4 ? EarRegister::Tenor
           : key < kC5 ? EarRegister::Middle
                       : EarRegister::Treble;
}

IntervalKind intervalOf(PracticeInterval interval) {
    return planOf(interval).kind;
}

bool isTempered(PracticeInterval interval) {
    const IntervalKind kind = intervalOf(interval);
    return kind != IntervalKind::Unison && kind != IntervalKind::Octave;
}

int listenedMultiple(PracticeInterval interval, Hertz lower) {
    int multiple = 1;
    while (multiple < kHighestListened &&
           multiple * intervalOf(intervalOf(interval)).pair.ofLower * lower.value() < kListenFrom) {
        ++multiple;
    }
    return multiple;
}

DifficultyScale scaleOf(ExerciseKind kind) {
    switch (kind) {
    case ExerciseKind::Count:
        return {0.3, 10.0, 0.05, 4.0};
    case ExerciseKind::WhichWay:
        return {40.0, 0.3, 0.5, 10.0};
    case ExerciseKind::Compare:
        return {100.0, 2.0, 0.5, 20.0};
    case ExerciseKind::BringTogether:
    case ExerciseKind::LeaveALittle:
        break;
    }
    return {4.0, 25.0, 0.0, 8.0};
}

std::vector<EarRegister> registersFor(const Instrument& instrument, PracticeInterval interval) {
    std::vector<EarRegister> registers;
    for (const KeyPair& pair : keyPairs(instrument, interval)) {
        const EarRegister here = registerOf(pair.lowerKey);
        if (std::find(registers.begin(), registers.end(), here) == registers.end()) {
            registers.push_back(here);
        }
    }
    return registers;
}

std::optional<Exercise> drawExercise(const Instrument& instrument,
                                     const ExerciseWish& wish,
                                     double level,
                                     const std::function<Hertz(const Note&)>& pitchOfKey,
                                     std::uint64_t seed) {
    EXPECTS(level > 0.0);
    const IntervalKind kind = intervalOf(wish.interval);
    const auto temperedBeat = [&](const KeyPair& pair) {
        return beatRate(kind, pitchOfKey(pair.lowerKey), pitchOfKey(pair.upperKey));
    };
    std::vector<KeyPair> pairs = keyPairs(instrument, wish.interval);
    std::erase_if(pairs, [&](const KeyPair& pair) {
        if (wish.earRegister && registerOf(pair.lowerKey) != *wish.earRegister) {
            return true;
        }
        const double left = wish.kind == ExerciseKind::LeaveALittle && !ofOneKey(wish.interval)
                                ? std::abs(temperedBeat(pair).perSecond())
                                : 0.0;
        return wish.kind == ExerciseKind::LeaveALittle &&
               (left < kSlowestLeft || left > kFastestLeft);
    });
    if (pairs.empty()) {
        return std::nullopt;
    }
    const auto slowest = [&](const KeyPair& pair) {
        return slowestCounted(wish.interval, targetPitch(instrument, pair.lower, pitchOfKey));
    };
    if (wish.kind == ExerciseKind::Count) {
        // Slow beats are asked of strings that sing so long; where none does, the slowest that the longest lets count.
        double asked = slowest(pairs.front());
        for (const KeyPair& pair : pairs) {
            asked = std::min(asked, slowest(pair));
        }
        level = std::max(level, asked);
        std::erase_if(pairs, [&](const KeyPair& pair) { return slowest(pair) > level; });
    }
    Random random(seed);
    const auto chosen =
        static_cast<std::size_t>(random.uniform() * static_cast<double>(pairs.size()));
    const KeyPair& pair = pairs[std::min(chosen, pairs.size() - 1)];
    const double way = random.uniform() < 0.5 ? -1.0 : 1.0;
    const Hertz lower = targetPitch(instrument, pair.lower, pitchOfKey);
    const int multiple = listenedMultiple(wish.interval, lower);
    Exercise exercise;
    exercise.kind = wish.kind;
    exercise.interval = wish.interval;
    exercise.lower = pair.lower;
    exercise.upper = pair.upper;
    exercise.lowerKey = pair.lowerKey;
    exercise.upperKey = pair.upperKey;
    exercise.level = level;
    exercise.multiple = multiple;
    exercise.beat = BeatRate(way * level / multiple);
    exercise.seed = seed;
    if (wish.kind == ExerciseKind::LeaveALittle) {
        exercise.wanted = temperedBeat(pair);
    }
    if (wish.kind == ExerciseKind::Compare) {
        const double slower = random.uniform(kSlowestCompared, kFastestCompared);
        const double faster = slower * (1.0 + 0.01 * level);
        const bool secondFaster = random.uniform() < 0.5;
        exercise.beat = BeatRate(way * (secondFaster ? slower : faster) / multiple);
        exercise.second = BeatRate(way * (secondFaster ? faster : slower) / multiple);
    } else if (wish.kind != ExerciseKind::Count) {
        const BeatRate off = beatOfWidth(wish.interval, lower, Cents(way * level));
        const double most = std::min(1.0, kFastestAsked / std::abs(off.perSecond()));
        exercise.level = level * most;
        exercise.beat = exercise.wanted + off * most;
    }
    return exercise;
}

} // namespace quillbench
