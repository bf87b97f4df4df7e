#include "core/workflow/session.hpp"

#include "core/support/contract.hpp"
#include "core/workflow/following.hpp"
#include "core/workflow/hearing.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

namespace quillbench {

namespace {

constexpr std::size_t kMostPast = 64;
/// What the polarisations of two strings that sound together, and strings that ring along, leave open of an interval that
/// is nearly still, one standard deviation in cents. **Source** own measurement: a whole session by ear on the virtual
/// instrument, 170 strings left within 0.3 cent were read 1.1 cents off (median), 2 to 3 cents one in ten.
constexpr double kPairCents = 1.3;
/// The same where one of the two was heard alone before.
constexpr double kPairCentsWithReference = 0.9;

void accept(Session& session) {
    StepProgress& progress = session.progress[session.current];
    if (session.step().work == StepWork::Sweep) {
        detail::decide(session, progress, StepState::Kept);
        return;
    }
    if (progress.marks.empty()) {
        return;
    }
    const auto newestGood = std::find_if(
        progress.marks.rbegin(), progress.marks.rend(), [](const Mark& mark) { return mark.good; });
    // What is left after the last good one, where the ear stays unsure, is where the string stands now; by ear the pin may
    // have been turned since.
    const bool last = newestGood == progress.marks.rend() || session.byEar(session.current) ||
                      unsureInARow(progress) >= kPlucksToSettle;
    const Mark& newest = last ? progress.marks.back() : *newestGood;
    progress.kept = newest;
    if (session.byEar(session.current)) {
        progress.kept->uncertainty =
            Cents(std::hypot(newest.uncertainty.value(),
                             newest.referenceHeard ? kPairCentsWithReference : kPairCents));
    }
    progress.slippedBy.reset();
    progress.outside =
        abs(newest.deviation) > session.step().tolerance + 2.0 * progress.kept->uncertainty;
    detail::rememberKept(session, session.step(), progress);
    detail::decide(session, progress, StepState::Kept);
}

void skip(Session& session, const Skip& event) {
    const auto asked = session.asked();
    if (asked && session.done(session.current) && !session.chosenByHand) {
        detail::moveTo(session, *asked); // what is left is what the window asks for
    }
    StepProgress& progress = session.progress[session.current];
    progress.reason = event.reason;
    session.wrongPin.reset();
    detail::decide(session, progress, StepState::Skipped);
    if (const auto next = session.asked()) {
        detail::moveTo(session, *next);
        session.chosenByHand = false;
    }
}

void goTo(Session& session, std::size_t step, FrameIndex at) {
    if (step >= session.progress.size()) {
        return;
    }
    detail::moveTo(session, step);
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
        detail::moveTo(session, *first);
        session.chosenByHand = false;
    }
}

struct Applied {
    Session& session;

    void operator()(const Heard& event) const { detail::hear(session, event); }

    void operator()(const HeardPair& event) const { detail::hearPair(session, event); }

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

bool Session::byEar(std::size_t step) const {
    return (way == Way::ByEar || progress[step].meterUnsure) && plan->steps[step].pair;
}

bool Session::covered(std::size_t step) const {
    return byEar(step) && !done(step);
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
    return way == Way::ByEar || byEar(step) || one.work == StepWork::Check ? one.together
                                                                           : one.alone;
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
