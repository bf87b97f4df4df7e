#include "core/workflow/guidance.hpp"

#include <algorithm>
#include <cmath>

namespace quillbench {

namespace {

/// Settling down into the target from a little above sits more firmly. Common practice, no source.
constexpr Cents kLittleAbove{2.0};
/// Nearer than this a sharp string is settled rather than let down.
constexpr Cents kLittleSharp{5.0};
/// Asked for to make sure of the pin: between 2 and 5 cents.
constexpr Cents kFirstFall{3.0};
/// A string that rose by this much while it was worked was pulled up, not found sharp.
constexpr Cents kPulled{2.0};

std::size_t insideInARow(const StepProgress& progress, Cents tolerance) {
    std::size_t count = 0;
    for (auto mark = progress.marks.rbegin();
         mark != progress.marks.rend() && insideTolerance(*mark, tolerance);
         ++mark) {
        ++count;
    }
    return count;
}

/// Above the ceiling, and either pulled there under our eyes or past the breaking reserve.
bool tooHigh(const TuningStep& step, const StepProgress& progress, Cents deviation) {
    if (deviation <= step.ceiling) {
        return false;
    }
    const bool pastReserve = deviation > step.facts.marginLow / 4.0;
    const auto lowest =
        std::min_element(progress.marks.begin(),
                         progress.marks.end(),
                         [](const Mark& a, const Mark& b) { return a.deviation < b.deviation; });
    const bool pulled = lowest != progress.marks.end() && deviation - lowest->deviation > kPulled &&
                        progress.marks.back().deviation >= deviation;
    return pastReserve || pulled;
}

void ask(Guidance& guidance, const TuningStep& step, Ask what, Cents amount) {
    guidance.ask = what;
    guidance.amount = amount;
    if (step.facts.centsPerDegree && *step.facts.centsPerDegree > 0.0) {
        guidance.degrees = amount.value() / *step.facts.centsPerDegree;
    }
}

void guideFlat(Guidance& guidance, const TuningStep& step, const PinGuard& guard, Cents below) {
    const Cents up = below + std::min(kLittleAbove, step.ceiling);
    if (below > kWellOff && !guard.fallHeard) {
        ask(guidance, step, Ask::LowerFirst, kFirstFall);
    } else if (below <= kWellOff) {
        ask(guidance, step, Ask::HairUp, up);
    } else {
        const bool justHeard =
            guard.highest && guard.last && *guard.highest - guard.last->deviation >= Cents(1.5);
        ask(guidance, step, justHeard ? Ask::LowerHeard : Ask::BringUp, up);
    }
}

void guideOpen(Guidance& guidance, const TuningStep& step, const StepProgress& progress) {
    const auto newest = std::find_if(
        progress.marks.rbegin(), progress.marks.rend(), [](const Mark& mark) { return mark.good; });
    if (newest == progress.marks.rend()) {
        guidance.ask = Ask::PlayKey;
        return;
    }
    const Cents deviation = newest->deviation;
    if (tooHigh(step, progress, deviation)) {
        ask(guidance, step, Ask::TooHigh, deviation);
        guidance.danger = true;
    } else if (progress.guard.notMoving) {
        ask(guidance, step, Ask::NotMoving, abs(deviation));
    } else if (insideTolerance(*newest, step.tolerance)) {
        ask(guidance, step, Ask::PluckAgain, abs(deviation));
        const std::size_t inside = insideInARow(progress, step.tolerance);
        guidance.plucksWanted = inside < kPlucksToSettle ? kPlucksToSettle - inside : 1;
    } else if (progress.slippedBy && progress.marks.size() == 1) {
        ask(guidance, step, Ask::Slipped, *progress.slippedBy);
    } else if (deviation > kLittleSharp) {
        ask(guidance, step, Ask::LetDown, deviation);
    } else if (deviation > Cents(0.0)) {
        ask(guidance, step, Ask::SettleDown, deviation);
    } else {
        guideFlat(guidance, step, progress.guard, -deviation);
    }
}

} // namespace

Guidance guide(const Session& session) {
    Guidance guidance;
    guidance.step = session.current;
    guidance.hearing = session.hearing;
    const std::optional<std::size_t> asked = session.asked();
    if (session.paused) {
        guidance.ask = Ask::Paused;
        return guidance;
    }
    const StepProgress& here = session.here();
    if (!session.done(session.current)) {
        guideOpen(guidance, session.step(), here);
        return guidance;
    }
    if (!asked) {
        guidance.ask = Ask::AllDone;
        return guidance;
    }
    guidance.next = asked;
    guidance.ask = here.state == StepState::Settled ? Ask::SettledNext : Ask::KeptNext;
    return guidance;
}

} // namespace quillbench
