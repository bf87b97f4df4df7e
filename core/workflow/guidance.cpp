#include "core/workflow/guidance.hpp"

#include "core/workflow/aim.hpp"

#include <algorithm>
#include <cmath>

namespace quillbench {

namespace {

/// A move of less than so many standard deviations of a reading could not be heard.
constexpr double kUnheard = 1.5;
/// Settling down into the target from a little above sits more firmly. Common practice, no source.
constexpr Cents kLittleAbove{2.0};
/// Nearer than this a sharp string is settled rather than let down.
constexpr Cents kLittleSharp{5.0};
/// Asked for to make sure of the pin: between 2 and 5 cents.
constexpr Cents kFirstFall{3.0};
/// From this evidence on that nothing moved, only a little is asked for: what moves may be another string.
constexpr double kDoubt = 0.7;
/// Strings that must have settled before their sinking back is reckoned with, and the most that is.
constexpr std::size_t kSinkKnown = 5;
constexpr Cents kMostSink{1.5};
/// From below: a sharp string is slackened to so much under its target first.
constexpr Cents kSlack{5.0};
constexpr Cents kLongWay{12.0};
constexpr double kFirstPart = 0.75;
/// A string that rose by this much while it was worked was pulled up, not found sharp.
constexpr Cents kPulled{2.0};
/// A string that stayed so near for most of the marks that are kept, and did not settle, is left where it is nearest.
constexpr Cents kCircling{1.5};

/// Inside, or not to be told from it.
bool looksInside(const Mark& mark, Cents tolerance) {
    return insideTolerance(mark, tolerance) ||
           (mark.good && abs(mark.deviation) < kUnheard * mark.uncertainty);
}

std::size_t insideInARow(const StepProgress& progress, Cents tolerance) {
    std::size_t count = 0;
    for (auto mark = progress.marks.rbegin();
         mark != progress.marks.rend() && looksInside(*mark, tolerance);
         ++mark) {
        ++count;
    }
    return count;
}

/// Long worked at and always near: what is heard does not follow the pin so finely, and the string never settles.
bool circles(const StepProgress& progress) {
    const auto near =
        std::count_if(progress.marks.begin(), progress.marks.end(), [](const Mark& mark) {
            return mark.good && abs(mark.deviation) <= kCircling;
        });
    return progress.marks.size() == kMarksKept &&
           4 * static_cast<std::size_t>(near) >= 3 * kMarksKept;
}

/// Above the ceiling, and either pulled there under our eyes or past the breaking reserve.
bool tooHigh(const TuningStep& step, const StepProgress& progress, Cents deviation) {
    if (deviation <= step.ceiling || progress.marks.back().deviation <= step.ceiling) {
        return false; // or was let down since, though that was not heard so well
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

/// How far above its target a string `below` it is brought on the way: to settle down from there, of a hair no more than
/// was missing; or because strings sink back under this player's hand.
Cents overshoot(const Session& session, const TuningStep& step, Cents below) {
    const Cents wanted =
        session.plan->approach == Approach::SettleDown ? std::min(kLittleAbove, below) : Cents(0.0);
    const Cents sinks = session.sinkBack.strings >= kSinkKnown
                            ? std::clamp(session.sinkBack.mean, Cents(0.0), kMostSink)
                            : Cents(0.0);
    return std::min(wanted + sinks, step.ceiling);
}

void guideFlat(Guidance& guidance, const Session& session, const TuningStep& step, Cents below) {
    const PinGuard& guard = session.here().guard;
    // Pins differ from what is reckoned by a quarter and more: a long way is gone in parts.
    const Cents up =
        below > kLongWay ? kFirstPart * below : below + overshoot(session, step, below);
    if (below > kWellOff && !guard.fallHeard) {
        ask(guidance, step, Ask::LowerFirst, kFirstFall);
    } else if (below <= kWellOff) {
        ask(guidance, step, Ask::HairUp, up);
    } else {
        const bool justHeard = guard.fallen().value_or(Cents(0.0)) >= Cents(1.5);
        ask(guidance, step, justHeard ? Ask::LowerHeard : Ask::BringUp, up);
    }
}

void guideSharp(Guidance& guidance, const Session& session, const TuningStep& step, Cents above) {
    if (session.plan->approach == Approach::FromBelow) {
        ask(guidance, step, Ask::LetDown, above + kSlack);
    } else {
        ask(guidance, step, above > kLittleSharp ? Ask::LetDown : Ask::SettleDown, above);
    }
}

/// What endangers a string or speaks of a wrong pin comes before everything else; true: it does.
bool guideSafety(Guidance& guidance, const Session& session, const Mark& newest) {
    const TuningStep& step = session.step();
    const StepProgress& progress = session.here();
    if (newest.signKnown && tooHigh(step, progress, newest.deviation)) {
        ask(guidance, step, Ask::TooHigh, newest.deviation);
        guidance.danger = true;
        return true;
    }
    if (progress.guard.notMoving) {
        ask(guidance, step, Ask::NotMoving, abs(newest.deviation));
        return true;
    }
    return false;
}

/// Inside the tolerance, but three plucks that agree did not settle it: too near the edge, which a hair of the pin
/// mends, or too unsure, which nothing mends.
void guideInside(Guidance& guidance, const TuningStep& step, const StepProgress& progress) {
    const std::size_t inside = insideInARow(progress, step.tolerance);
    if (inside <= kPlucksToSettle) {
        ask(guidance, step, Ask::PluckAgain, abs(progress.marks.back().deviation));
        guidance.plucksWanted = inside < kPlucksToSettle ? kPlucksToSettle - inside : 1;
        return;
    }
    const Cents mean = settledMark(progress.marks).deviation;
    if (abs(mean) < std::max(step.tolerance / 3.0, kUnheard * progress.marks.back().uncertainty)) {
        ask(guidance, step, Ask::AsNear, abs(mean));
    } else {
        ask(guidance, step, mean > Cents(0.0) ? Ask::SettleDown : Ask::HairUp, abs(mean));
    }
}

void guideByMeter(Guidance& guidance, const Session& session, const Mark& newest) {
    const TuningStep& step = session.step();
    const StepProgress& progress = session.here();
    const Cents deviation = newest.deviation;
    if (looksInside(newest, step.tolerance)) {
        if (circles(progress)) {
            ask(guidance, step, Ask::AsNear, abs(deviation));
        } else {
            guideInside(guidance, step, progress);
        }
    } else if (!newest.signKnown) {
        ask(guidance, step, Ask::EitherWay, abs(deviation));
    } else if (progress.slippedBy && progress.marks.size() == 1) {
        ask(guidance, step, Ask::Slipped, *progress.slippedBy);
    } else if (deviation > Cents(0.0)) {
        guideSharp(guidance, session, step, deviation);
    } else {
        guideFlat(guidance, session, step, -deviation);
    }
    if (session.here().guard.evidence > kDoubt && guidance.amount > kFirstFall) {
        ask(guidance, step, guidance.ask, kFirstFall);
    }
}

/// By ear nothing is said of numbers; only a string that is well off is asked down first.
void guideByEar(Guidance& guidance, const Session& session, const Mark* newest) {
    guidance.ask = Ask::ListenPair;
    guidance.covered = true;
    guidance.meterUnsure = session.way == Way::ByMeter;
    // Less well heard since it may have risen.
    const bool flat = newest != nullptr && newest->signKnown && newest->deviation < -kWellOff &&
                      session.here().marks.back().deviation < -kWellOff;
    if (flat && !session.here().guard.fallHeard) {
        guidance.ask = Ask::LowerFirst;
    } else {
        const detail::ReferenceWish wish = detail::referenceWish(session, session.current);
        guidance.referenceFirst = wish.first;
        guidance.referenceBeats = wish.beats;
    }
}

void guideOpen(Guidance& guidance, const Session& session) {
    const TuningStep& step = session.step();
    const StepProgress& progress = session.here();
    guidance.string = session.stringToPlay(session.current);
    if (step.work == StepWork::Sweep) {
        guidance.ask = Ask::PlayEach;
        return;
    }
    if (step.work == StepWork::Check) {
        guidance.ask = Ask::HearCheck;
        return;
    }
    if (session.press != Press::None) {
        guidance.ask = session.press == Press::Asked ? Ask::PressNow : Ask::PressMissed;
        return;
    }
    const auto newest = std::find_if(
        progress.marks.rbegin(), progress.marks.rend(), [](const Mark& mark) { return mark.good; });
    const bool heard = newest != progress.marks.rend();
    if (heard && guideSafety(guidance, session, *newest)) {
        return;
    }
    if (session.covered(session.current)) {
        guideByEar(guidance, session, heard ? &*newest : nullptr);
    } else if (session.hearing == Hearing::Weak && unsureInARow(progress) >= kPlucksToSettle) {
        ask(guidance, step, Ask::AsNear, abs(progress.marks.back().deviation));
    } else if (heard && !progress.marks.back().good) {
        guidance.ask = Ask::HearAgain; // it may have been turned since it was heard well
    } else if (heard) {
        guideByMeter(guidance, session, *newest);
    } else {
        guidance.ask = Ask::PlayKey;
    }
}

/// Before the player leaves a choir for what is tuned to it.
std::optional<std::size_t> choirToRepeatNow(const Session& session,
                                            std::optional<std::size_t> asked) {
    const std::size_t choir = session.step().string.choir;
    const std::vector<std::size_t> due = choirsToRepeat(session);
    const bool leaves = !asked || session.plan->steps[*asked].string.choir != choir ||
                        session.plan->steps[*asked].work != StepWork::Set;
    if (due.empty() || !leaves) {
        return std::nullopt;
    }
    return due.front();
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
    if (session.wrongPin) {
        guidance.ask = Ask::OtherMoved;
        guidance.step = session.wrongPin->step;
        guidance.string = session.wrongPin->moved;
        guidance.amount = session.wrongPin->by;
        guidance.danger = session.wrongPin->by > kPulled;
        return guidance;
    }
    const StepProgress& here = session.here();
    if (!session.done(session.current)) {
        guideOpen(guidance, session);
        return guidance;
    }
    guidance.next = asked;
    if (const auto far = choirToRepeatNow(session, asked)) {
        guidance.ask = Ask::RepeatChoir;
        guidance.string = StringId{*far, 0};
        guidance.amount = averageMove(session, *far);
        return guidance;
    }
    if (!asked) {
        guidance.ask = Ask::AllDone;
        return guidance;
    }
    guidance.string = session.stringToPlay(*asked);
    guidance.outside = here.outside;
    guidance.amount = here.outside && here.kept ? here.kept->deviation : Cents(0.0);
    guidance.ask = here.state == StepState::Settled ? Ask::SettledNext : Ask::KeptNext;
    return guidance;
}

} // namespace quillbench
