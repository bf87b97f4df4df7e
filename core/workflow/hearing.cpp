#include "core/workflow/hearing.hpp"

#include "core/workflow/aim.hpp"
#include "core/workflow/false_beats.hpp"
#include "core/workflow/following.hpp"

#include <algorithm>
#include <cmath>

namespace quillbench::detail {

namespace {

/// A string that had settled is opened again when one pluck finds it this far outside its tolerance.
constexpr double kSlipCents = 1.0;
/// A reading less sure than this (one standard deviation) is no mark.
constexpr double kSureCents = 1.5;
/// An unsure reading so many standard deviations from the target says which way to go all the same.
constexpr double kCertainlyOff = 4.0;
/// A pluck heard for less than this gives no reading, and nothing is said of it.
constexpr double kLeastSeconds = 0.2;
/// Another string that moved by less was not turned: the ground moves, and a pull on one string moves its
/// neighbours a little.
constexpr double kOtherMovedCents = 2.5;
/// A string that was worked moves by more from pluck to pluck.
constexpr double kMovedCents = 1.0;
/// A light press between nut and pin sharpens by more. Common practice, no source.
constexpr double kPressCents = 1.0;
/// What beats, ringing twins and the last of a dying partial leave in doubt where a partial lies: one standard
/// deviation. **Source** own measurement on the virtual instrument.
constexpr double kPartialCents = 0.08;
/// A partial whose offset is not known lies so far from its string's comb, one standard deviation. **Source**
/// the 23 real notes of tests/accuracy, median of partials 1 to 4.
constexpr double kUnheardPartial = 0.4;
/// What was heard for less does not tell partials apart: nothing is concluded from their lack.
constexpr Seconds kTellsPartials{0.8};
/// What the meter is trusted with at least, cents.
constexpr double kMeterTells = 0.25;
/// Two strings of an interval that is further off than this are heard one beside the other rather than as a beat.
constexpr Cents kApart{10.0};
/// Two lines further apart than this, in hertz, are told from each other within a second.
constexpr double kToldApart = 2.0;

Hearing hearingOf(const StringReading& reading, Cents uncertainty) {
    if (reading.standing == Standing::Nothing) {
        return reading.has(Warning::Noisy) ? Hearing::Noisy : Hearing::Nothing;
    }
    if (reading.has(Warning::TwoStrings)) {
        return Hearing::TwoStrings;
    }
    const bool weak = reading.standing == Standing::Weak || uncertainty.value() > kSureCents;
    if (weak && reading.has(Warning::Noisy)) {
        return Hearing::Noisy;
    }
    // A string that is unsure of its own pitch, but certainly not where it belongs, can still be led there.
    return weak && abs(reading.deviation) < kCertainlyOff * uncertainty ? Hearing::Weak
                                                                        : Hearing::Good;
}

/// By ear both strings are played: what is heard as the other one alone may be both, unless it was asked for alone.
bool mayBeBoth(const Session& session, StringId string) {
    const TuningStep& step = session.step();
    return session.covered(session.current) && step.pair->against == string &&
           !referenceWish(session, session.current).first;
}

/// A pluck of a string that was done: is it still where it was kept?
void lookAgain(Session& session, std::size_t step, const Mark& mark) {
    StepProgress& progress = session.progress[step];
    const double outside =
        abs(mark.deviation).value() - session.plan->steps[step].tolerance.value();
    const double moved =
        progress.kept ? abs(mark.deviation - progress.kept->deviation).value() : outside;
    if (mark.good && outside > kSlipCents + 2.0 * mark.uncertainty.value() && moved > kSlipCents &&
        progress.state != StepState::Skipped) {
        progress.slippedBy =
            progress.kept ? mark.deviation - progress.kept->deviation : mark.deviation;
        progress.kept.reset();
        progress.marks = {mark};
        progress.outside = false;
        decide(session, progress, StepState::Working);
    }
}

void learnSinkBack(SinkBack& sink, const std::vector<Mark>& marks) {
    const auto last = marks.end() - static_cast<std::ptrdiff_t>(kPlucksToSettle);
    const Cents sank = last->deviation - marks.back().deviation;
    ++sink.strings;
    sink.mean += (sank - sink.mean) / static_cast<double>(sink.strings);
}

void remember(Session& session, StringId string, const Mark& fromTarget) {
    session.known[string] = fromTarget;
}

/// Whether what was heard of a string alone counts in place of the beat that it made in the same pluck: it stands so far
/// off that the beat says little.
bool tellsMore(const Mark& alone, const Mark& pair) {
    return pair.ofPair && !alone.ofPair && alone.good && abs(alone.deviation) > kApart &&
           std::abs((alone.at - pair.at).count()) < kOnePluck.count();
}

/// Whether a weak beat puts the string far from where the same pluck has its pitch: another line was taken for it.
bool contradicts(const Mark& alone, const Mark& pair) {
    return !pair.good && !alone.ofPair && abs(alone.deviation - pair.deviation) > kApart &&
           std::abs((alone.at - pair.at).count()) < kOnePluck.count();
}

/// A mark of the current step; settles it where it is by meter.
void addMark(Session& session, const Mark& mark) {
    const TuningStep& step = session.step();
    StepProgress& progress = session.progress[session.current];
    const bool wasDone = session.done(session.current);
    if (!mark.ofPair && !progress.marks.empty() && tellsMore(mark, progress.marks.back())) {
        progress.marks.pop_back();
    }
    progress.marks.push_back(mark);
    if (progress.marks.size() > kMarksKept) {
        progress.marks.erase(progress.marks.begin());
    }
    if (mark.good && !progress.found) {
        progress.found = mark.deviation + progress.aim;
    }
    progress.guard = watched(progress.guard, mark);
    if (wasDone && progress.state != StepState::Skipped) {
        lookAgain(session, session.current, mark);
        return;
    }
    progress.state = StepState::Working;
    if (step.work == StepWork::Check) {
        if (mark.good) {
            progress.kept = mark;
            progress.outside = abs(mark.deviation) > step.tolerance + 2.0 * mark.uncertainty;
            decide(session, progress, StepState::Settled);
        }
        return;
    }
    if (!session.byEar(session.current) && hasSettled(progress.marks, step.tolerance)) {
        progress.kept = settledMark(progress.marks);
        progress.slippedBy.reset();
        progress.outside = false;
        learnSinkBack(session.sinkBack, progress.marks);
        rememberKept(session, step, progress);
        decide(session, progress, StepState::Settled);
    }
}

void sweep(Session& session, StringId string, const Mark& fromTarget) {
    StepProgress& progress = session.progress[session.current];
    progress.swept[string] = fromTarget;
    if (fromTarget.good) {
        remember(session, string, fromTarget);
    }
    if (const auto setBy = session.plan->stepOf(string); setBy && session.done(*setBy)) {
        Mark fromAim = fromTarget;
        fromAim.deviation -= session.progress[*setBy].aim;
        lookAgain(session, *setBy, fromAim);
    }
    if (session.done(session.current)) {
        return;
    }
    progress.state = StepState::Working;
    if (progress.swept.size() == session.step().sweep.size()) {
        decide(session, progress, StepState::Settled);
    }
}

/// The string asked for was plucked more than once and has not moved.
bool standsStill(const std::vector<Mark>& marks) {
    return marks.size() >= 2 &&
           abs(marks.back().deviation - marks[marks.size() - 2].deviation).value() < kMovedCents;
}

/// Whether the pin of another string is being turned while that of the current step was asked for.
std::optional<WrongPin> otherMoved(const Session& session, StringId string, const Mark& mark) {
    const StepProgress& here = session.here();
    const auto before = session.known.find(string);
    if (!mark.good || before == session.known.end() || !session.step().setsString() ||
        session.step().string == string || session.done(session.current) || here.guard.fallHeard ||
        !standsStill(here.marks)) {
        return std::nullopt;
    }
    const Cents by = mark.deviation - before->second.deviation;
    const double noise = std::hypot(mark.uncertainty.value(), before->second.uncertainty.value());
    if (abs(by).value() < std::max(kOtherMovedCents, 4.0 * noise)) {
        return std::nullopt;
    }
    return WrongPin{session.current, string, by};
}

/// The pressed pluck: it counts for no position.
void pressed(Session& session, StringId string, const Mark& fromTarget) {
    StepProgress& progress = session.progress[session.current];
    const bool own = session.step().string == string;
    const auto before = session.known.find(string);
    const auto& last = progress.guard.last;
    const Cents stood = own && last && last->signKnown  ? last->deviation + progress.aim
                        : before != session.known.end() ? before->second.deviation
                                                        : fromTarget.deviation;
    const double rise = (fromTarget.deviation - stood).value();
    const bool sharpened = rise > std::max(kPressCents, 3.0 * fromTarget.uncertainty.value());
    session.press = Press::None;
    if (own && sharpened) {
        progress.guard.fallHeard = true;
        progress.guard.notMoving = false;
        progress.guard.evidence = 0.0;
    } else if (sharpened) {
        session.wrongPin = WrongPin{session.current, string, Cents(rise)};
    } else {
        session.press = Press::Missed;
    }
}

double meterTells(const TuningStep& step) {
    return std::max(kMeterTells, 0.5 * step.tolerance.value());
}

/// Whether two partials that shall meet lie too unsurely for the step's tolerance, `own` that of the string that is set.
bool tooUnsure(const Session& session,
               const TuningStep& step,
               const std::optional<PartialOffsets::Offset>& own) {
    const auto doubtOf = [&session](StringId string, const auto& partial) {
        if (partial) {
            return partial->uncertainty.value();
        }
        const auto known = session.known.find(string);
        const double whole = known == session.known.end() ? 0.0 : known->second.uncertainty.value();
        return std::hypot(kUnheardPartial, whole);
    };
    const StringId against = step.pair->against;
    const double doubt =
        std::hypot(doubtOf(step.string, own),
                   doubtOf(against, offsetOf(session, against, otherPartial(*step.pair))));
    return doubt > meterTells(step);
}

/// Where a reading puts its string, from the target that the string has alone: its pitch, or its partial that meets
/// one of the string it is tuned to.
Mark fromOwnTarget(Session& session, const Heard& heard, bool maybeBoth) {
    const StringReading& reading = heard.reading;
    Mark mark{
        reading.deviation, heard.uncertainty, heard.at, session.hearing == Hearing::Good, true};
    const auto setBy = session.plan->stepOf(reading.string);
    if (!setBy) {
        return mark;
    }
    const TuningStep& step = session.plan->steps[*setBy];
    if (reading.target.value() > 0.0) {
        mark.deviation += interval(step.facts.target, reading.target);
    }
    PartialOffsets offsets = offsetsOf(reading, step.facts.inharmonicity);
    const auto partial = ownPartial(step);
    const auto heardNow = partial ? offsets.at(*partial) : std::nullopt;
    const auto heardBefore = partial ? offsetOf(session, reading.string, *partial) : std::nullopt;
    const Cents pitch = mark.deviation;
    if (heardNow) {
        const auto other = offsetOf(session, step.pair->against, otherPartial(*step.pair));
        const double theirs = other ? other->uncertainty.value() : 0.0;
        mark.deviation += heardNow->cents;
        mark.uncertainty = Cents(std::hypot(heardNow->uncertainty.value(), theirs, kPartialCents));
    } else if (heardBefore) {
        mark.deviation += heardBefore->cents;
    }
    StepProgress& progress = session.progress[*setBy];
    if (partial && mark.good && *setBy == session.current && !session.done(*setBy) &&
        staysWhereHeard(session, step.pair->against)) {
        const bool again = !progress.marks.empty() && progress.marks.back().good &&
                           progress.marks.back().uncertainty.value() > meterTells(step);
        const bool unsure = reading.used >= kTellsPartials
                                ? tooUnsure(session, step, heardNow)
                                : again && mark.uncertainty.value() > meterTells(step);
        progress.meterUnsure = progress.meterUnsure || unsure;
    }
    if (mark.good && offsets.any() && !maybeBoth) {
        offsets.pitch = pitch;
        session.partials[reading.string] = offsets;
    }
    return mark;
}

void take(Session& session, std::size_t step, StringId string, Mark mark, bool maybeBoth) {
    const std::optional<WrongPin> wrong = otherMoved(session, string, mark);
    if (session.press == Press::Asked && mark.good && step == session.current) {
        pressed(session, string, mark);
        return;
    }
    const TuningStep& at = session.plan->steps[step];
    if (at.work != StepWork::Sweep && at.string != string) {
        // The other string of the pair: it stays where it is and is only looked at.
        std::size_t& inARow = session.progress[step].otherInARow;
        inARow = maybeBoth ? inARow + 1 : 0;
        if (const auto setBy = session.plan->stepOf(string);
            setBy && session.done(*setBy) && !maybeBoth) {
            Mark fromAim = mark;
            fromAim.deviation -= session.progress[*setBy].aim;
            lookAgain(session, *setBy, fromAim);
        }
        session.wrongPin = wrong ? wrong : session.wrongPin;
        return;
    }
    moveTo(session, step);
    session.chosenByHand = false;
    session.wrongPin = wrong;
    if (at.work == StepWork::Sweep) {
        sweep(session, string, mark);
        return;
    }
    if (mark.good && !session.done(step)) {
        remember(session, string, mark);
    }
    StepProgress& progress = session.progress[step];
    if (!session.done(step)) {
        const Cents aim = session.aimOf(step);
        for (Mark& earlier : progress.marks) {
            earlier.deviation += progress.aim - aim;
        }
        progress.aim = aim;
    }
    mark.deviation -= progress.aim;
    addMark(session, mark);
}

/// By ear the two strings of an interval are played together: nobody left a register on. What is heard of the one that is
/// set then counts where the two stand so far apart that their beat says nothing, and where its partials are told from
/// those of the other: the lower of an octave has some that are not shared, of any other each has to lie apart.
/// **Source** own measurement on the virtual instrument: of 73 readings none lay on the wrong side.
Hearing withItsOther(const Session& session, std::size_t step, const Heard& heard) {
    const TuningStep& at = session.plan->steps[step];
    if (session.hearing != Hearing::TwoStrings || !session.covered(step)) {
        return session.hearing;
    }
    const PartialPair lowest = intervalOf(at.pair->interval).pair;
    const bool ownPartials = (at.pair->tunedIsUpper ? lowest.ofUpper : lowest.ofLower) > 1;
    const Cents away = abs(heard.reading.deviation);
    const bool told = ownPartials || hertzPerCent(at.facts.target) * away.value() > kToldApart;
    const bool apart = heard.reading.string == at.string && told &&
                       heard.uncertainty < Cents(kSureCents) &&
                       away > kApart + 2.0 * heard.uncertainty;
    return apart ? Hearing::Good : Hearing::Weak;
}

} // namespace

void decide(Session& session, StepProgress& progress, StepState state) {
    progress.state = state;
    ++session.decisions;
}

void moveTo(Session& session, std::size_t step) {
    if (step == session.current) {
        return;
    }
    session.progress[session.current].guard = PinGuard{};
    session.progress[step].guard = PinGuard{};
    session.press = Press::None;
    session.current = step;
}

/// The string of a step was left here: what is tuned to it next is aimed at that.
void rememberKept(Session& session, const TuningStep& step, const StepProgress& progress) {
    Mark fromTarget = *progress.kept;
    fromTarget.deviation += progress.aim;
    remember(session, step.string, fromTarget);
    if (session.byEar(session.current)) {
        // Of a string that was moved by ear, what was heard of its partials alone holds no more.
        session.partials.erase(step.string);
        return;
    }
    const auto partial = ownPartial(step);
    if (const auto offset = partial ? offsetOf(session, step.string, *partial) : std::nullopt) {
        session.partials[step.string].pitch = fromTarget.deviation - offset->cents;
    }
}

void hear(Session& session, const Heard& heard) {
    const StringReading& reading = heard.reading;
    if (session.paused) {
        return;
    }
    if (reading.standing == Standing::Nothing &&
        (reading.has(Warning::TooShort) || reading.used.count() < kLeastSeconds)) {
        return; // a jack that falls back, a knock, a trill: no pluck that anybody meant to be read
    }
    session.hearing = hearingOf(reading, heard.uncertainty);
    if (reading.standing == Standing::Nothing) {
        return;
    }
    const auto step = stepOfString(session, reading.string);
    if (!step) {
        session.hearing = Hearing::OtherNote;
        return;
    }
    if (tellsOfOwnBeat(reading)) {
        Session::OwnBeats& beats = session.ownBeats[reading.string];
        ++beats.of;
        beats.told += reading.ownBeat ? 1U : 0U;
    }
    session.hearing = withItsOther(session, *step, heard);
    const bool maybeBoth =
        mayBeBoth(session, reading.string); // as it was asked for when it sounded
    const Mark mark = fromOwnTarget(session, heard, maybeBoth);
    // An unsure reading does not drag the player to another key than the one asked for, nor does the end of an old one.
    const bool expected = session.done(session.current) && step == session.asked();
    const bool sure =
        expected || (session.hearing == Hearing::Good && reading.standing == Standing::Ok);
    if (*step != session.current && (!sure || !session.follows(reading.pluck))) {
        return;
    }
    take(session, *step, reading.string, mark, maybeBoth);
}

void hearPair(Session& session, const HeardPair& heard) {
    if (session.paused) {
        return;
    }
    const auto step = stepOfPair(session, heard.lower, heard.upper);
    if (!step) {
        session.hearing = Hearing::OtherNote;
        return;
    }
    session.hearing = heard.weak ? Hearing::Weak : Hearing::Good;
    if (*step != session.current && (heard.weak || !session.follows(heard.pluck))) {
        return;
    }
    moveTo(session, *step);
    session.chosenByHand = false;
    session.wrongPin.reset();
    StepProgress& progress = session.progress[*step];
    progress.otherInARow = 0;
    if (!session.done(*step)) {
        progress.aim = session.aimOf(*step);
    }
    const Mark mark = markOfPair(session.step(), heard);
    if (progress.marks.empty() ||
        (!tellsMore(progress.marks.back(), mark) && !contradicts(progress.marks.back(), mark))) {
        addMark(session, mark);
    }
}

} // namespace quillbench::detail
