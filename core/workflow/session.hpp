#pragma once

#include "core/analysis/snapshot.hpp"
#include "core/analysis/target.hpp"
#include "core/workflow/pin_guard.hpp"
#include "core/workflow/plan.hpp"
#include "core/workflow/settling.hpp"

#include <cstdint>
#include <memory>
#include <optional>
#include <type_traits>
#include <utility>
#include <variant>
#include <vector>

namespace quillbench {

enum class StepState {
    Untouched,
    Working, ///< heard, not yet there
    Settled, ///< stands still inside its tolerance
    Kept,    ///< accepted by the player as it is
    Skipped,
};

/// What is known of one string of the plan.
struct StepProgress {
    StepState state = StepState::Untouched;
    std::vector<Mark> marks;        ///< the last plucks, oldest first; at most kMarksKept
    PinGuard guard;                 ///< since the hammer came to this pin
    std::optional<Mark> kept;       ///< the reading that was kept when it settled or was accepted
    std::optional<Cents> slippedBy; ///< it had settled and was heard elsewhere: by so much
};

inline constexpr std::size_t kMarksKept = 12;

/// Why the last reading moved nothing.
enum class Hearing {
    Good,
    Weak,       ///< too unsure to count
    Noisy,      ///< too much noise in the room
    TwoStrings, ///< a register was left on
    OtherNote,  ///< not a string of this plan
    Nothing,    ///< no string recognised
};

/// A finished reading of one pluck. **Range** uncertainty as the reading's, the clock's included.
struct Heard {
    StringReading reading;
    Cents uncertainty;
    Seconds at{0};
};

/// The player keeps the current string as it is. Without a good mark of it nothing happens.
struct Accept {};

/// The player leaves the current string for later.
struct Skip {};

/// The player chooses a step by hand. **Range** step < number of steps; others are ignored.
struct GoTo {
    std::size_t step = 0;
    FrameIndex at; ///< when: plucks before it lead nowhere else any more
};

/// Readings count no more until Resume.
struct Pause {};

struct Resume {};

/// One of the above. A class of its own, so that apply(session, event) is never taken for std::apply.
struct SessionEvent {
    using What = std::variant<Heard, Accept, Skip, GoTo, Pause, Resume>;

    template <typename T>

    requires(std::is_constructible_v<What, T>)
        // NOLINTNEXTLINE(google-explicit-constructor): an event of a kind is an event
        SessionEvent(T event)
        : what(std::move(event)) {}

    What what;
};

/// One octave on the way to its temperament. Immutable by use: apply() makes the next; undo keeps the old one.
struct Session {
    std::shared_ptr<const TuningPlan> plan; ///< never null, at least one step
    std::vector<StepProgress> progress;     ///< one a step
    std::size_t current = 0;                ///< the step that the player is at
    bool chosenByHand = false;              ///< the current step was chosen, not heard
    FrameIndex chosenAt;                    ///< when it was, where it was
    bool paused = false;
    Hearing hearing = Hearing::Good;
    std::uint64_t decisions = 0; ///< counts what undo takes back: kept, settled, skipped, reopened

    [[nodiscard]] const TuningStep& step() const { return plan->steps[current]; }

    [[nodiscard]] const StepProgress& here() const { return progress[current]; }

    /// Whether a pluck leads to its string: not one from before a step was chosen by hand.
    [[nodiscard]] bool follows(FrameIndex pluck) const {
        return !chosenByHand || pluck >= chosenAt;
    }

    /// Settled, kept or skipped.
    [[nodiscard]] bool done(std::size_t step) const;

    /// The step to ask for: the current one while it is open, else the next open one in order (round once);
    /// nothing when all are done.
    [[nodiscard]] std::optional<std::size_t> asked() const;

    [[nodiscard]] std::size_t countOf(StepState state) const;
};

/// **Range** plan not null and not empty.
[[nodiscard]] Session begin(std::shared_ptr<const TuningPlan> plan);

/// The session after one event.
[[nodiscard]] Session apply(const Session& session, const SessionEvent& event);

/// What the analysis listens for now: `strings` (all that may sound with the registers that are on) and the string
/// asked for.
[[nodiscard]] AnalysisTarget listenFor(const Session& session, std::vector<ExpectedString> strings);

/// A session and the ones before it, one a decision.
class SessionHistory {
public:
    explicit SessionHistory(Session first) : now_(std::move(first)) {}

    [[nodiscard]] const Session& now() const { return now_; }

    void apply(const SessionEvent& event);

    [[nodiscard]] bool canUndo() const { return !past_.empty(); }

    /// Takes back the last decision; nothing where there is none.
    void undo();

private:
    Session now_;
    std::vector<Session> past_;
};

} // namespace quillbench
