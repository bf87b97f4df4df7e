#include "core/virtual/scripted_player.hpp"

#include "core/support/contract.hpp"

#include <algorithm>

namespace quillbench {

namespace {

/// Which way the pin goes for what is asked: +1 sharpens, 0 stays.
double wayOf(Ask ask) {
    switch (ask) {
    case Ask::LowerFirst:
    case Ask::LetDown:
    case Ask::SettleDown:
    case Ask::TooHigh:
        return -1.0;
    case Ask::LowerHeard:
    case Ask::BringUp:
    case Ask::HairUp:
        return 1.0;
    case Ask::PlayKey:
    case Ask::HearAgain:
    case Ask::PluckAgain:
    case Ask::AsNear:
    case Ask::PlayEach:
    case Ask::ListenPair:
    case Ask::HearCheck:
    case Ask::EitherWay:
    case Ask::OtherMoved:
    case Ask::PressNow:
    case Ask::PressMissed:
    case Ask::NotMoving:
    case Ask::SettledNext:
    case Ask::KeptNext:
    case Ask::Slipped:
    case Ask::RepeatChoir:
    case Ask::AllDone:
    case Ask::Paused:
        return 0.0;
    }
    return 0.0;
}

} // namespace

ScriptedPlayer::ScriptedPlayer(std::uint64_t seed, double spread) : random_(seed), spread_(spread) {
    EXPECTS(spread >= 0.0 && spread <= 1.0);
}

std::optional<Degree> ScriptedPlayer::turn(const Guidance& guidance) {
    const double way = wayOf(guidance.ask);
    if (way * way < 0.5 || !guidance.degrees) {
        return std::nullopt;
    }
    return meant(Degree(way * *guidance.degrees));
}

Degree ScriptedPlayer::meant(Degree turn) {
    return Degree(turn.value() * (1.0 + std::clamp(spread_ * random_.normal(), -0.9, 0.9)));
}

} // namespace quillbench
