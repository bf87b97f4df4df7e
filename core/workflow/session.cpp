#include "core/workflow/session.hpp"

#include "core/support/contract.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace quillbench {

namespace {

/// A string that had settled is opened again when one pluck finds it this far outside its tolerance.
constexpr double kSlipCents = 1.0;
/// A reading less sure than this (one standard deviation) is no mark.
constexpr double kSureCents = 1.5;
/// A pluck heard for less than this gives no reading, and nothing is said of it.
constexpr double kLeastSeconds = 0.2;

Hearing hearingOf(const StringReading& reading, Cents uncertainty) {
    if (reading.standing == Standing::Nothing) {
        return reading.has(Warning::Noisy) ? Hearing::Noisy : Hearing::Nothing;
    }
    if (reading.has(Warning::TwoStrings)) {
        return Hearing::TwoStrings;
    }
    if (reading.standing == Standing::Weak || uncertainty.value() > kSureCents) {
        return reading.has(Warning::Noisy) ? Hearing::Noisy : Hearing::Weak;
    }
    return Hearing::Good;
}

void open(Session& session, StepProgress& progress, StepState state) {
    progress.state = state;
    ++session.decisions;
}

void moveTo(Session& session, std::size_t step) {
    if (step == session.current) {
        return;
    }
    session.progress[session.current].guard = PinGuard{};
    session.progress[step].guard = PinGuard{};
    session.current = step;
}

/// A pluck of a string that was done: is it still where it was kept?
void lookAgain(Session& session, StepProgress& progress, const Mark& mark) {
    const double outside = abs(mark.deviation).value() - session.step().tolerance.value();
    const double moved =
        progress.kept ? abs(mark.deviation - progress.kept->deviation).value() : outside;
    if (mark.good && outside > kSlipCents + 2.0 * mark.uncertainty.value() && moved > kSlipCents &&
        progress.state != StepState::Skipped) {
        progress.slippedBy =
            progress.kept ? mark.deviation - progress.kept->deviation : mark.deviation;
        progress.kept.reset();
        progress.marks = {mark};
        open(session, progress, StepState::Working);
    }
}

void hear(Session& session, const Heard& heard) {
    if (session.paused) {
        return;
    }
    const StringReading& reading = heard.reading;
    if (reading.standing == Standing::Nothing &&
        (reading.has(Warning::TooShort) || reading.used.count() < kLeastSeconds)) {
        return; // a jack that falls back, a knock, a trill: no pluck that anybody meant to be read
    }
    session.hearing = hearingOf(reading, heard.uncertainty);
    if (reading.standing == Standing::Nothing) {
        return;
    }
    const std::optional<std::size_t> step = session.plan->stepOf(reading.string);
    if (!step) {
        session.hearing = Hearing::OtherNote;
        return;
    }
    // An unsure reading does not drag the player to another key, nor does the end of an old one.
    if (*step != session.current &&
        (session.hearing != Hearing::Good || !session.follows(reading.pluck))) {
        return;
    }
    moveTo(session, *step);
    session.chosenByHand = false;
    StepProgress& progress = session.progress[*step];
    const Mark mark{
        reading.deviation, heard.uncertainty, heard.at, session.hearing == Hearing::Good};
    const bool wasDone = session.done(*step);
    progress.marks.push_back(mark);
    if (progress.marks.size() > kMarksKept) {
        progress.marks.erase(progress.marks.begin());
    }
    progress.guard = watched(progress.guard, mark);
    if (wasDone && progress.state != StepState::Skipped) {
        lookAgain(session, progress, mark);
        return;
    }
    progress.state = StepState::Working;
    if (hasSettled(progress.marks, session.step().tolerance)) {
        progress.kept = settledMark(progress.marks);
        progress.slippedBy.reset();
        open(session, progress, StepState::Settled);
    }
}

void accept(Session& session) {
    StepProgress& progress = session.progress[session.current];
    const auto newestGood = std::find_if(
        progress.marks.rbegin(), progress.marks.rend(), [](const Mark& mark) { return mark.good; });
    if (newestGood == progress.marks.rend()) {
        return;
    }
    progress.kept = *newestGood;
    progress.slippedBy.reset();
    open(session, progress, StepState::Kept);
}

void skip(Session& session) {
    open(session, session.progress[session.current], StepState::Skipped);
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
    session.hearing = Hearing::Good;
    if (session.progress[step].state == StepState::Skipped) {
        session.progress[step].state = StepState::Untouched;
    }
}

struct Applied {
    Session& session;

    void operator()(const Heard& event) const { hear(session, event); }

    void operator()(const Accept& /*event*/) const { accept(session); }

    void operator()(const Skip& /*event*/) const { skip(session); }

    void operator()(const GoTo& event) const { goTo(session, event.step, event.at); }

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
            return step;
        }
    }
    return std::nullopt;
}

std::size_t Session::countOf(StepState state) const {
    return static_cast<std::size_t>(
        std::count_if(progress.begin(), progress.end(), [state](const StepProgress& one) {
            return one.state == state;
        }));
}

Session begin(std::shared_ptr<const TuningPlan> plan) {
    EXPECTS(plan != nullptr && !plan->steps.empty());
    Session session;
    session.progress.resize(plan->steps.size());
    session.plan = std::move(plan);
    return session;
}

Session apply(const Session& session, const SessionEvent& event) {
    Session next = session;
    std::visit(Applied{next}, event.what);
    return next;
}

AnalysisTarget listenFor(const Session& session, std::vector<ExpectedString> strings) {
    AnalysisTarget target;
    target.strings = std::move(strings);
    if (const auto asked = session.asked()) {
        target.asked = session.plan->steps[*asked].string;
        target.askedMayBeFar = session.chosenByHand;
    }
    return target;
}

void SessionHistory::apply(const SessionEvent& event) {
    Session next = quillbench::apply(now_, event);
    if (next.decisions != now_.decisions) {
        past_.push_back(now_);
    }
    now_ = std::move(next);
}

void SessionHistory::undo() {
    if (past_.empty()) {
        return;
    }
    now_ = std::move(past_.back());
    past_.pop_back();
}

} // namespace quillbench
