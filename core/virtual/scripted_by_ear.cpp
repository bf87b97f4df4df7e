#include "core/virtual/scripted_session.hpp"

#include <cmath>
#include <utility>
#include <vector>

namespace quillbench {

namespace {

constexpr Seconds kBeforePair{0.25};
constexpr double kKeyAfterKey = 0.16; ///< seconds at most: no hand presses two keys twice alike
/// Beats are listened to for longer than a pitch.
constexpr Seconds kPairHeld{2.6};
/// An interval of which the program hears nothing is left after so many.
constexpr std::size_t kMostUnread = 4;

} // namespace

void ScriptedSession::workByEar(std::size_t step, const Guidance& guidance) {
    comeTo(step, guidance);
    if (listenedTo_ != step) {
        wantsToMove_.reset();
    }
    const auto& perDegree = plan_->steps[step].facts.centsPerDegree;
    if (guidance.step != step || !perDegree || *perDegree <= 0.0) {
        return;
    }
    std::optional<Degree> degrees = player_.turn(guidance);
    if (!degrees && wantsToMove_) {
        degrees = player_.meant(Degree(wantsToMove_->value() / *perDegree));
    }
    if (!degrees) {
        return;
    }
    ear_.moved(Cents(degrees->value() * *perDegree));
    stiff_ = 1.0;
    turn(step, *degrees);
}

void ScriptedSession::pressPair(std::size_t step, bool down) {
    const TuningStep& one = plan_->steps[step];
    const Drawing& drawing = session().drawingOf(step);
    VirtualCommand what;
    if (drawing.registration.position != settings_.instrument.position) {
        // No key reaches them where the keyboard stands: both are plucked by hand.
        what.kind = down ? VirtualCommand::Kind::PluckString : VirtualCommand::Kind::DampString;
        for (const StringId string : {one.pair->against, one.string}) {
            what.string = string;
            command(what);
        }
        return;
    }
    what.kind = down ? VirtualCommand::Kind::KeyDown : VirtualCommand::Kind::KeyUp;
    std::vector<std::pair<std::size_t, std::size_t>> keys{{drawing.manual, one.pair->key}};
    if (one.key != one.pair->key) {
        keys.emplace_back(drawing.manual, one.key);
        if (down && hand_.uniform() < 0.5) {
            std::swap(keys.front(), keys.back());
        }
    } else if (drawing.otherManual) {
        keys.emplace_back(*drawing.otherManual, one.key);
    }
    for (std::size_t i = 0; i < keys.size(); ++i) {
        if (down && i > 0) {
            hear(Seconds(hand_.uniform(0.0, kKeyAfterKey)));
        }
        what.manual = keys[i].first;
        what.key = keys[i].second;
        command(what);
    }
}

void ScriptedSession::playPair(std::size_t step) {
    if (listenedTo_ != step) {
        listenedTo_ = step;
        ear_.begin();
        pairsUnread_ = 0;
    }
    draw(session().drawingOf(step));
    analyser_.setTarget(std::make_shared<const AnalysisTarget>(listenFor(session(), strings_)));
    hear(kBeforePair);
    listensToPair_ = true;
    playedAt_ = virtual_.now();
    heard_ = false;
    while (virtual_.takePluck()) {
    }
    pressPair(step, true);
    hear(kPairHeld);
    pressPair(step, false);
    waitForWord();
    countPluck(step);
}

/// What the ear makes of the motion of the two strings, which the program does not tell it.
void ScriptedSession::judgeByEar(std::size_t step) {
    const TuningStep& one = plan_->steps[step];
    const PairAim& aim = *one.pair;
    if (session().current != step) {
        happen(GoTo{step, virtual_.now()}); // the program heard nothing that would have led here
    }
    std::optional<PluckRecord> own;
    std::optional<PluckRecord> other;
    while (const auto pluck = virtual_.takePluck()) {
        if (pluck->string == one.string) {
            own = pluck;
        } else if (pluck->string == aim.against) {
            other = pluck;
        }
    }
    const auto sounded = own && other ? virtual_.coincidentPair(aim.tunedIsUpper ? *other : *own,
                                                                aim.pair.ofLower,
                                                                aim.tunedIsUpper ? *own : *other,
                                                                aim.pair.ofUpper)
                                      : std::nullopt;
    EarsWish wish;
    if (sounded) {
        wish = ear_.judge({sounded->beat(),
                           aim.beat,
                           aim.tolerance.perSecond() / one.tolerance.value(),
                           aim.tunedIsUpper});
    }
    wantsToMove_ = wish.move;
    if (!session().covered(step) || (sounded && !wish.content)) {
        return;
    }
    const bool read = !session().progress[step].marks.empty();
    if (sounded && read) {
        happen(Accept{});
    } else if (++pairsUnread_ >= kMostUnread) {
        happen(read ? SessionEvent(Accept{}) : SessionEvent(Skip{"nothing heard of it"}));
    }
}

} // namespace quillbench
