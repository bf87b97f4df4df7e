#pragma once

#include "core/workflow/session.hpp"

#include <optional>

namespace quillbench {

/// What the player is asked to do now. The window words it (app/text).
enum class Ask {
    PlayKey,     ///< nothing heard yet: play the key of the step
    LowerFirst,  ///< the string must go up: first down by 2 to 5 cents, so that the pin is known
    LowerHeard,  ///< that was heard: now up, to a little above the target
    BringUp,     ///< the pin is known: up to a little above the target
    HairUp,      ///< a little flat
    LetDown,     ///< sharp: let it down to the target
    SettleDown,  ///< a little sharp: settle down into the target
    HearAgain,   ///< the last pluck was too unsure to go by: pluck again before the pin is turned
    PluckAgain,  ///< inside: hand off the hammer and pluck again, briskly
    AsNear,      ///< in place as near as it can be heard, but unsure: accept it as it is
    PlayEach,    ///< a sweep: play the string named
    ListenPair,  ///< by ear: play the two together and bring them to what is wanted, then accept
    HearCheck,   ///< nothing is set: hear the interval
    EitherWay,   ///< a beat without direction: move a little and hear whether it slows
    OtherMoved,  ///< another string moves: the hammer sits on its pin
    PressNow,    ///< hold the key and press the string lightly between nut and pin
    PressMissed, ///< that was not the string asked for
    NotMoving,   ///< worked at and standing still: is the hammer on another pin?
    TooHigh,     ///< danger: pulled above its ceiling; let it down at once
    SettledNext, ///< settled: play the next key
    KeptNext,    ///< accepted as it is: play the next key
    Slipped,     ///< had settled and is elsewhere now
    RepeatChoir, ///< a choir is done and moved so far that it wants a second pass; `amount`: on average
    AllDone,     ///< every string of the plan is settled, kept or skipped
    Paused,
};

struct Guidance {
    Ask ask = Ask::PlayKey;
    std::size_t step = 0;            ///< the step it speaks of
    std::optional<std::size_t> next; ///< the step asked for after it
    Cents amount;                    ///< how far to go, without sign (Slipped: signed); 0 elsewhere
    std::optional<double> degrees;   ///< the same in degrees of the pin, where known
    std::size_t plucksWanted = 0;    ///< PluckAgain: how many more must agree
    Hearing hearing = Hearing::Good; ///< why the last pluck did not count
    StringId string;      ///< to play, or that moved (OtherMoved), or of the choir (RepeatChoir)
    bool outside = false; ///< KeptNext: outside its tolerance
    bool covered = false; ///< no number is shown
    bool danger = false;  ///< to the string: shown in red
    bool meterUnsure =
        false; ///< ListenPair, by meter: its partials beat by themselves, no number is sure enough

    /// ListenPair: the string that it is tuned to was not heard alone since its own pin was worked at, and can be without
    /// touching a register; or nothing but it is heard. Once it was, the beat is told with half the doubt, and its side.
    bool referenceFirst = false;
    bool referenceBeats = false; ///< referenceFirst: once more, it seems to beat by itself

    bool operator==(const Guidance&) const = default;
};

/// What the player should do now. Never asks for more above the target than the step's ceiling, and shows a string
/// that is well off no way up before its fall was heard.
[[nodiscard]] Guidance guide(const Session& session);

} // namespace quillbench
