#include "core/workflow/session.hpp"

#include "core/support/contract.hpp"
#include "core/workflow/following.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

namespace quillbench {

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
constexpr std::size_t kMostPast = 64;
/// What beats, ringing twins and the last of a dying partial leave in doubt where a partial lies: one standard
/// deviation. **Source** own measurement on the virtual instrument.
constexpr double kPartialCents = 0.08;
/// A string further from its target may lie nearer to its neighbour's.
constexpr Cents kFarCents{35.0};
/// Two strings of an interval that is further off than this are heard one beside the other rather than as a beat.
constexpr Cents kApart{10.0};

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

/// The partial that meets one of the other string where a step is aimed at what was found there.
std::optional<int> ownPartial(const TuningStep& step) {
    const auto& pair = step.pair;
    if (!pair || !pair->measured) {
        return std::nullopt;
    }
    return pair->tunedIsUpper ? pair->pair.ofUpper : pair->pair.ofLower;
}

int otherPartial(const PairAim& pair) {
    return pair.tunedIsUpper ? pair.pair.ofLower : pair.pair.ofUpper;
}

std::optional<PartialOffsets::Offset>
offsetOf(const Session& session, StringId string, int partial) {
    const auto found = session.partials.find(string);
    return found == session.partials.end() ? std::nullopt : found->second.at(partial);
}

/// The string of a step was left here: what is tuned to it next is aimed at that.
void rememberKept(Session& session, const TuningStep& step, const StepProgress& progress) {
    Mark fromTarget = *progress.kept;
    fromTarget.deviation += progress.aim;
    remember(session, step.string, fromTarget);
    const auto partial = ownPartial(step);
    if (const auto offset = partial ? offsetOf(session, step.string, *partial) : std::nullopt) {
        session.partials[step.string].pitch = fromTarget.deviation - offset->cents;
    }
}

/// A mark of the current step; settles it where it is by meter.
void addMark(Session& session, const Mark& mark) {
    const TuningStep& step = session.step();
    StepProgress& progress = session.progress[session.current];
    const bool wasDone = session.done(session.current);
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
    const bool byEar = session.way == Way::ByEar && step.pair;
    if (!byEar && hasSettled(progress.marks, step.tolerance)) {
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

/// Where a reading puts its string, from the target that the string has alone: its pitch, or its partial that meets
/// one of the string it is tuned to.
Mark fromOwnTarget(Session& session, const Heard& heard) {
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
    if (mark.good && offsets.any()) {
        offsets.pitch = pitch;
        session.partials[reading.string] = offsets;
    }
    return mark;
}

void take(Session& session, std::size_t step, StringId string, Mark mark) {
    const std::optional<WrongPin> wrong = otherMoved(session, string, mark);
    if (session.press == Press::Asked && mark.good && step == session.current) {
        pressed(session, string, mark);
        return;
    }
    const TuningStep& at = session.plan->steps[step];
    if (at.work != StepWork::Sweep && at.string != string) {
        // The other string of the pair: it stays where it is and is only looked at.
        if (const auto setBy = session.plan->stepOf(string); setBy && session.done(*setBy)) {
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
/// set then counts where the two stand so far apart that their beat says nothing; a unison's strings are never told
/// apart so.
Hearing withItsOther(const Session& session, std::size_t step, const Heard& heard) {
    const auto& pair = session.plan->steps[step].pair;
    if (session.hearing != Hearing::TwoStrings || !session.covered(step)) {
        return session.hearing;
    }
    const Cents off = heard.reading.deviation;
    const bool apart = pair->interval != IntervalKind::Unison &&
                       heard.reading.string == session.plan->steps[step].string &&
                       abs(off) > kApart + 2.0 * heard.uncertainty &&
                       heard.uncertainty < Cents(kSureCents);
    return apart ? Hearing::Good : Hearing::Weak;
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
    const auto step = detail::stepOfString(session, reading.string);
    if (!step) {
        session.hearing = Hearing::OtherNote;
        return;
    }
    session.hearing = withItsOther(session, *step, heard);
    const Mark mark = fromOwnTarget(session, heard);
    // An unsure reading does not drag the player to another key than the one asked for, nor does the end of an old one.
    const bool expected = session.done(session.current) && step == session.asked();
    const bool sure =
        expected || (session.hearing == Hearing::Good && reading.standing == Standing::Ok);
    if (*step != session.current && (!sure || !session.follows(reading.pluck))) {
        return;
    }
    take(session, *step, reading.string, mark);
}

void hearPair(Session& session, const HeardPair& heard) {
    if (session.paused) {
        return;
    }
    const auto step = detail::stepOfPair(session, heard.lower, heard.upper);
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
    if (!session.done(*step)) {
        progress.aim = session.aimOf(*step);
    }
    addMark(session, detail::markOfPair(session.step(), heard));
}

void accept(Session& session) {
    StepProgress& progress = session.progress[session.current];
    if (session.step().work == StepWork::Sweep) {
        decide(session, progress, StepState::Kept);
        return;
    }
    if (progress.marks.empty()) {
        return;
    }
    const auto newestGood = std::find_if(
        progress.marks.rbegin(), progress.marks.rend(), [](const Mark& mark) { return mark.good; });
    // What is left after the last good one, where the ear stays unsure, is where the string stands now.
    const Mark& newest =
        newestGood == progress.marks.rend() || unsureInARow(progress) >= kPlucksToSettle
            ? progress.marks.back()
            : *newestGood;
    progress.kept = newest;
    progress.slippedBy.reset();
    progress.outside = abs(newest.deviation) > session.step().tolerance + 2.0 * newest.uncertainty;
    rememberKept(session, session.step(), progress);
    decide(session, progress, StepState::Kept);
}

void skip(Session& session, const Skip& event) {
    StepProgress& progress = session.progress[session.current];
    progress.reason = event.reason;
    session.wrongPin.reset();
    decide(session, progress, StepState::Skipped);
    if (const auto next = session.asked()) {
        moveTo(session, *next);
        session.chosenByHand = false;
    }
}

void goTo(Session& session, std::size_t step, FrameIndex at) {
    if (step >= session.progress.size()) {
        return;
    }
    moveTo(session, step);
    session.chosenAt = at;
    session.chosenByHand = true;
    session.wrongPin.reset();
    session.hearing = Hearing::Good;
    if (session.progress[step].state == StepState::Skipped) {
        session.progress[step].state = StepState::Untouched;
    }
}

/// Strings that were skipped stay so.
void repeat(Session& session, const std::vector<std::size_t>& choirs) {
    std::optional<std::size_t> first;
    for (std::size_t i = 0; i < session.progress.size(); ++i) {
        const TuningStep& step = session.plan->steps[i];
        if (step.work != StepWork::Set ||
            std::find(choirs.begin(), choirs.end(), step.string.choir) == choirs.end() ||
            session.progress[i].state == StepState::Skipped) {
            continue;
        }
        session.progress[i] = StepProgress{};
        first = first ? first : i;
    }
    if (first) {
        ++session.decisions;
        session.wrongPin.reset();
        moveTo(session, *first);
        session.chosenByHand = false;
    }
}

/// Whether a string was last heard so far away that it could be taken for its neighbour.
bool foundFar(const StepProgress& progress) {
    return !progress.marks.empty() && progress.marks.back().good &&
           abs(progress.marks.back().deviation) > kFarCents;
}

struct Applied {
    Session& session;

    void operator()(const Heard& event) const { hear(session, event); }

    void operator()(const HeardPair& event) const { hearPair(session, event); }

    void operator()(const Accept& /*event*/) const { accept(session); }

    void operator()(const Skip& event) const { skip(session, event); }

    void operator()(const GoTo& event) const { goTo(session, event.step, event.at); }

    void operator()(const GoBy& event) const { session.way = event.way; }

    void operator()(const Remark& event) const { session.remarks.push_back(event); }

    void operator()(const PressTest& /*event*/) const { session.press = Press::Asked; }

    void operator()(const SecondPass& /*event*/) const { repeat(session, choirsToRepeat(session)); }

    void operator()(const Undo& /*event*/) const {}

    void operator()(const Pause& /*event*/) const { session.paused = true; }

    void operator()(const Resume& /*event*/) const { session.paused = false; }
};

} // namespace

bool Session::done(std::size_t step) const {
    const StepState state = progress[step].state;
    return state == StepState::Settled || state == StepState::Kept || state == StepState::Skipped;
}

std::optional<std::size_t> Session::asked() const {
    for (std::size_t i = 0; i < progress.size(); ++i) {
        const std::size_t step = (current + i) % progress.size();
        if (!done(step)) {
            return step == current ? step : detail::firstOpen(*this, step);
        }
    }
    return std::nullopt;
}

std::size_t unsureInARow(const StepProgress& progress) {
    const auto sure = std::find_if(
        progress.marks.rbegin(), progress.marks.rend(), [](const Mark& mark) { return mark.good; });
    return static_cast<std::size_t>(sure - progress.marks.rbegin());
}

std::size_t Session::countOf(StepState state) const {
    return static_cast<std::size_t>(
        std::count_if(progress.begin(), progress.end(), [state](const StepProgress& one) {
            return one.state == state;
        }));
}

bool Session::covered(std::size_t step) const {
    return way == Way::ByEar && plan->steps[step].pair && !done(step);
}

Cents Session::aimOf(std::size_t step) const {
    const auto& pair = plan->steps[step].pair;
    if (!pair || !pair->measured) {
        return Cents(0.0);
    }
    const auto other = known.find(pair->against);
    const auto setBy = plan->stepOf(pair->against);
    // A string that has still to be set does not stay where it was found.
    if (other == known.end() || (setBy && !done(*setBy))) {
        return Cents(0.0);
    }
    const auto heard = partials.find(pair->against);
    const auto offset = offsetOf(*this, pair->against, otherPartial(*pair));
    return pair->offset + (offset ? heard->second.pitch + offset->cents : other->second.deviation);
}

StringId Session::stringToPlay(std::size_t step) const {
    for (const StringId string : plan->steps[step].sweep) {
        if (progress[step].swept.count(string) == 0) {
            return string;
        }
    }
    return plan->steps[step].string;
}

const Drawing& Session::drawingOf(std::size_t step) const {
    const TuningStep& one = plan->steps[step];
    if (one.work == StepWork::Sweep && one.phase != Phase::RunThrough) {
        const auto setBy = plan->stepOf(stringToPlay(step));
        return setBy ? plan->steps[*setBy].alone : one.alone;
    }
    return way == Way::ByEar || one.work == StepWork::Check ? one.together : one.alone;
}

Session begin(std::shared_ptr<const TuningPlan> plan, std::map<StringId, Mark> known) {
    EXPECTS(plan != nullptr && !plan->steps.empty());
    Session session;
    session.progress.resize(plan->steps.size());
    session.plan = std::move(plan);
    session.known = std::move(known);
    return session;
}

Session apply(const Session& session, const SessionEvent& event) {
    Session next = session;
    std::visit(Applied{next}, event.what);
    return next;
}

Cents averageMove(const Session& session, std::size_t choir) {
    Cents sum;
    int count = 0;
    for (std::size_t i = 0; i < session.progress.size(); ++i) {
        const StepProgress& one = session.progress[i];
        const TuningStep& step = session.plan->steps[i];
        if (step.work == StepWork::Set && step.string.choir == choir && one.found && one.kept) {
            sum += abs(one.kept->deviation + one.aim - *one.found);
            ++count;
        }
    }
    return count == 0 ? Cents(0.0) : sum / count;
}

std::vector<std::size_t> choirsToRepeat(const Session& session) {
    std::map<std::size_t, bool> allDone;
    for (std::size_t i = 0; i < session.progress.size(); ++i) {
        const TuningStep& step = session.plan->steps[i];
        if (step.work == StepWork::Set) {
            bool& all = allDone.try_emplace(step.string.choir, true).first->second;
            all = all && session.done(i);
        }
    }
    std::vector<std::size_t> choirs;
    for (const auto& [choir, all] : allDone) {
        if (all && averageMove(session, choir) > kPullsAlong) {
            choirs.push_back(choir);
        }
    }
    return choirs;
}

std::vector<int> meetingPartials(const TuningPlan& plan, StringId string) {
    std::vector<int> partials;
    for (const TuningStep& step : plan.steps) {
        if (!ownPartial(step) || (step.string != string && step.pair->against != string)) {
            continue;
        }
        const int partial = step.string == string ? *ownPartial(step) : otherPartial(*step.pair);
        const auto place = std::lower_bound(partials.begin(), partials.end(), partial);
        if (place == partials.end() || *place != partial) {
            partials.insert(place, partial);
        }
    }
    return partials;
}

AnalysisTarget listenFor(const Session& session, const std::vector<ExpectedString>& strings) {
    AnalysisTarget target;
    const auto asked = session.asked();
    if (!asked) {
        target.strings = strings;
        return target;
    }
    const std::vector<std::size_t>& choirs = session.drawingOf(*asked).choirs;
    const bool sets = session.plan->steps[*asked].work != StepWork::Sweep;
    target.asked = session.stringToPlay(*asked);
    if (sets) {
        target.closely = meetingPartials(*session.plan, *target.asked);
    }
    target.askedMayBeFar = session.chosenByHand || foundFar(session.progress[*asked]);
    for (ExpectedString one : strings) {
        if (!choirs.empty() &&
            std::find(choirs.begin(), choirs.end(), one.id.choir) == choirs.end()) {
            continue;
        }
        if (sets && one.id == *target.asked) {
            one.target = transpose(one.target, session.aimOf(*asked));
        }
        target.strings.push_back(one);
    }
    return target;
}

void SessionHistory::apply(const SessionEvent& event) {
    if (std::holds_alternative<Undo>(event.what)) {
        undo();
        return;
    }
    events_.push_back(event);
    Session next = quillbench::apply(now_, event);
    if (next.decisions != now_.decisions) {
        past_.push_back(now_);
        if (past_.size() > kMostPast) {
            past_.erase(past_.begin());
        }
    }
    now_ = std::move(next);
}

void SessionHistory::undo() {
    if (past_.empty()) {
        return;
    }
    events_.emplace_back(Undo{});
    now_ = std::move(past_.back());
    past_.pop_back();
}

SessionHistory replay(Session first, const std::vector<SessionEvent>& events) {
    SessionHistory history(std::move(first));
    for (const SessionEvent& event : events) {
        history.apply(event);
    }
    return history;
}

} // namespace quillbench
