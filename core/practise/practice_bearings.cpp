#include "core/practise/practice_bearings.hpp"

#include "core/support/contract.hpp"
#include "core/support/random.hpp"

#include <algorithm>
#include <cmath>
#include <set>
#include <utility>

namespace quillbench {

namespace {

constexpr double kLeastOff = 3.0; // cents, where a string stands at first
constexpr double kMostOff = 10.0;
constexpr const char* kTunedChoir = "8";
constexpr const char* kForkChoir = "8b";

std::optional<PracticeInterval> practisedAs(IntervalKind kind) {
    for (std::size_t i = 0; i < kPracticeIntervals; ++i) {
        const auto interval = static_cast<PracticeInterval>(i);
        if (interval != PracticeInterval::FourFoot && intervalOf(interval) == kind) {
            return interval;
        }
    }
    return std::nullopt;
}

std::optional<StringId>
bearingString(const Instrument& instrument, const char* choirId, const Note& note) {
    const auto choir = choirOf(instrument, choirId);
    return choir ? stringOf(instrument, *choir, note) : std::nullopt;
}

/// The question of a step; nothing where the instrument lacks a string.
std::optional<Exercise> questionOf(const Instrument& instrument, const BearingStep& step) {
    const auto interval = practisedAs(step.interval);
    const auto tuned = bearingString(instrument, kTunedChoir, step.tune);
    const auto against =
        bearingString(instrument, step.fromStandard ? kForkChoir : kTunedChoir, step.against);
    if (!interval || !tuned || !against || *tuned == *against) {
        return std::nullopt;
    }
    const bool above = step.tune.midiNumber() >= step.against.midiNumber();
    Exercise exercise;
    exercise.kind = ExerciseKind::LeaveALittle;
    exercise.interval = *interval;
    exercise.lower = above ? *against : *tuned;
    exercise.upper = above ? *tuned : *against;
    exercise.lowerKey = above ? step.against : step.tune;
    exercise.upperKey = above ? step.tune : step.against;
    exercise.wanted = step.beat;
    return exercise;
}

} // namespace

std::optional<PracticePair> pairAsLaid(const Instrument& instrument,
                                       const TunedScale& scale,
                                       const BearingStep& step,
                                       SampleRate rate) {
    std::optional<Exercise> exercise = questionOf(instrument, step);
    if (!exercise) {
        return std::nullopt;
    }
    const auto pitchOfKey = [&scale](const Note& note) { return scale.pitchOf(note); };
    exercise->kind = ExerciseKind::Count;
    exercise->beat = step.beat;
    exercise->multiple =
        listenedMultiple(exercise->interval, targetPitch(instrument, exercise->lower, pitchOfKey));
    return pairOf(instrument, *exercise, pitchOfKey, rate);
}

PracticeBearings::PracticeBearings(const Instrument& instrument,
                                   const TunedScale& scale,
                                   const BearingPlan& plan,
                                   std::uint64_t seed,
                                   SampleRate rate)
    : instrument_(&instrument) {
    const auto pitchOfKey = [&scale](const Note& note) { return scale.pitchOf(note); };
    strings_ = practiceStrings(instrument, pitchOfKey, seed, rate);
    Random random(seed);
    std::set<std::pair<std::size_t, std::size_t>> off;
    for (const BearingStep& step : plan.steps) {
        auto exercise = questionOf(instrument, step);
        if (!exercise) {
            continue;
        }
        const bool above = step.tune.midiNumber() >= step.against.midiNumber();
        const StringId pin = above ? exercise->upper : exercise->lower;
        Hertz& stands = strings_.pitches[pin.choir][pin.course];
        const bool first =
            step.kind != StepKind::Check && off.insert({pin.choir, pin.course}).second;
        wanted_.push_back(targetPitch(instrument, pin, pitchOfKey));
        if (first) {
            const double way = random.uniform() < 0.5 ? -1.0 : 1.0;
            stands = transpose(stands, Cents(way * random.uniform(kLeastOff, kMostOff)));
        }
        exercise->multiple = listenedMultiple(exercise->interval,
                                              targetPitch(instrument, exercise->lower, pitchOfKey));
        exercise->level = kMostOff;
        exercise->seed = seed;
        steps_.push_back(step);
        exercises_.push_back(*exercise);
        pins_.push_back(pin);
    }
}

bool PracticeBearings::sets(std::size_t step) const {
    EXPECTS(step < steps_.size());
    return steps_[step].kind != StepKind::Check;
}

PracticePair PracticeBearings::pair(std::size_t step) const {
    EXPECTS(step < steps_.size());
    const Exercise& exercise = exercises_[step];
    PracticePair pair;
    pair.instrument = instrument_;
    pair.settings = strings_;
    pair.lower = exercise.lower;
    pair.upper = exercise.upper;
    pair.pin = pins_[step];
    pair.interval = intervalOf(exercise.interval);
    pair.multiple = exercise.multiple;
    return pair;
}

Exercise PracticeBearings::exercise() const {
    EXPECTS(!done());
    Exercise exercise = exercises_[at_];
    exercise.beat = trueBeat(pair(at_)).value_or(exercise.wanted);
    return exercise;
}

void PracticeBearings::leave(Hertz rests) {
    EXPECTS(!done() && rests > Hertz(0.0));
    const StringId pin = pins_[at_];
    if (sets(at_)) {
        strings_.pitches[pin.choir][pin.course] = rests;
    }
    const PracticePair now = pair(at_);
    const Exercise& exercise = exercises_[at_];
    BearingLeft left;
    left.step = at_;
    left.left = trueBeat(now).value_or(exercise.wanted) - exercise.wanted;
    const Hertz lower = strings_.pitches[exercise.lower.choir][exercise.lower.course];
    left.interval =
        Cents(left.left.perSecond() / hertzPerCent(lower * intervalOf(now.interval).pair.ofLower));
    left_.push_back(left);
    ++at_;
}

void PracticeBearings::back() {
    if (at_ > 0) {
        --at_;
        left_.pop_back();
    }
}

std::vector<BearingLeft> PracticeBearings::left() const {
    std::vector<BearingLeft> all = left_;
    for (BearingLeft& one : all) {
        const StringId pin = pins_[one.step];
        one.note = sets(one.step)
                       ? interval(wanted_[one.step], strings_.pitches[pin.choir][pin.course])
                       : Cents(0.0);
    }
    return all;
}

} // namespace quillbench
