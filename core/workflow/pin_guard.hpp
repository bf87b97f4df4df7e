#pragma once

#include "core/units/cents.hpp"
#include "core/workflow/settling.hpp"

#include <optional>

namespace quillbench {

/// Watches that the pin under the hammer is the pin of the string that is heard. A value: update returns the next.
///
/// First line: a string that must go up is first asked down by 2 to 5 cents, and until that fall is heard on it no
/// way up is shown: a wrong pin then loosens a string instead of breaking it.
/// Second line: a sequential likelihood-ratio test ([Wald1945]) of "it is being worked" against "it stands
/// still" over the differences from pluck to pluck. The nearer the target, the smaller the turns that are looked
/// for, and the more plucks it takes; within 1 cent nothing is concluded (there a player rightly hardly moves it).
/// **Accuracy** at 0.3 cent scatter false alarms in under 1 of 200 steps; median five plucks to the alarm from
/// 8 cents on, six at 1.5 to 3 cents (workflow_tests "the guard at the pin").
struct PinGuard {
    /// What was heard of the string in one way. A beat and the string's own partials err by themselves: each is
    /// compared with its own kind.
    struct Heard {
        std::optional<Mark> last;     ///< the newest good mark
        std::optional<Cents> highest; ///< since the hammer came to this pin
    };

    bool fallHeard = false;   ///< the string went down as asked: the pin is its own
    bool notMoving = false;   ///< worked at, and the string stands still
    std::optional<Mark> last; ///< the newest good mark of either kind
    Heard alone;
    Heard pair;
    double evidence = 0;       ///< for "stands still", natural logarithm
    double evidenceBefore = 0; ///< the newest pluck, which speaks once: in the way that is surer

    /// How far the newest mark lies below the highest of its kind; nothing where a sign was not known.
    [[nodiscard]] std::optional<Cents> fallen() const;
};

/// Further from its target than this a flat string is asked down first.
inline constexpr Cents kWellOff{3.0};

/// The guard after one more pluck. Marks that are not good change nothing; a beat without direction speaks for a move or
/// against one by its rate alone, and never for a fall.
[[nodiscard]] PinGuard watched(const PinGuard& before, const Mark& mark);

} // namespace quillbench
