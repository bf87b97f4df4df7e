#pragma once

#include "core/analysis/target.hpp"
#include "core/workflow/partial_offsets.hpp"
#include "core/workflow/pin_guard.hpp"
#include "core/workflow/session_event.hpp"
#include "core/workflow/settling.hpp"
#include "core/workflow/step.hpp"

#include <cstdint>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace quillbench {

enum class StepState {
    Untouched,
    Working, ///< heard, not yet there
    Settled, ///< stands still inside its tolerance; of a sweep: every string was heard
    Kept,    ///< accepted by the player as it is
    Skipped,
};

/// What is known of one step of the plan.
struct StepProgress {
    StepState state = StepState::Untouched;
    std::vector<Mark> marks;        ///< the last plucks, oldest first; at most kMarksKept
    PinGuard guard;                 ///< since the hammer came to this pin
    std::optional<Mark> kept;       ///< the reading that was kept when it settled or was accepted
    std::optional<Cents> slippedBy; ///< it had settled and was heard elsewhere: by so much
    Cents aim;                      ///< where marks count from, re the target of the string alone
    std::optional<Cents> found;     ///< how far the string stood from its target at first
    bool outside = false;           ///< kept outside its tolerance
    bool meterUnsure =
        false; ///< where its partials lie is told too coarsely: only the ear brings it there
    std::size_t otherInARow =
        0;              ///< by ear: times only the string it is tuned to was heard, unasked
    std::string reason; ///< why it was skipped
    std::map<StringId, Mark> swept; ///< of a sweep: what was heard, from each string's own target
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

/// A string moved while the pin of another one was to be worked.
struct WrongPin {
    std::size_t step = 0; ///< whose pin was asked for
    StringId moved;
    Cents by;
};

/// How far strings sink back after the hammer is let go, learned over a session; positive sinks.
struct SinkBack {
    std::size_t strings = 0;
    Cents mean;
};

enum class Press {
    None,
    Asked,  ///< the next pluck is to be pressed
    Missed, ///< it did not sharpen: another string was pressed
};

/// A whole instrument on the way to its temperament. Immutable by use: apply() makes the next; undo keeps the old one.
struct Session {
    std::shared_ptr<const TuningPlan> plan; ///< never null, at least one step
    std::vector<StepProgress> progress;     ///< one a step
    std::size_t current = 0;                ///< the step that the player is at
    bool chosenByHand = false;              ///< the current step was chosen, not heard
    FrameIndex chosenAt;                    ///< when it was, where it was
    bool paused = false;
    Way way = Way::ByMeter;
    Hearing hearing = Hearing::Good;
    std::optional<WrongPin> wrongPin;
    Press press = Press::None;
    SinkBack sinkBack;

    /// Plucks of a string by itself that could tell of a beat of its own, and those that did.
    struct OwnBeats {
        std::size_t told = 0;
        std::size_t of = 0;
    };

    std::map<StringId, OwnBeats> ownBeats;
    std::map<StringId, Mark> known; ///< where each string stood last, from its own target
    std::map<StringId, PartialOffsets>
        partials; ///< of each string as heard last by itself, and long enough
    std::vector<Remark> remarks;
    std::uint64_t decisions = 0; ///< counts what undo takes back: kept, settled, skipped, reopened

    [[nodiscard]] const TuningStep& step() const { return plan->steps[current]; }

    [[nodiscard]] const StepProgress& here() const { return progress[current]; }

    /// Whether a pluck leads to its string: not one from before a step was chosen by hand.
    [[nodiscard]] bool follows(FrameIndex pluck) const {
        return !chosenByHand || pluck >= chosenAt;
    }

    /// Settled, kept or skipped.
    [[nodiscard]] bool done(std::size_t step) const;

    /// The step to ask for: the current one while it is open, else the next open one in order (round once), or
    /// what that relies on and is still open; nothing when all are done.
    [[nodiscard]] std::optional<std::size_t> asked() const;

    [[nodiscard]] std::size_t countOf(StepState state) const;

    /// Whether a step is done by ear: chosen so, or because the meter is too unsure of it; against another string.
    [[nodiscard]] bool byEar(std::size_t step) const;

    /// Whether the numbers of a step are covered: by ear and not accepted yet.
    [[nodiscard]] bool covered(std::size_t step) const;

    /// Where the string of a step belongs, from the target that it has alone: 0, or where that partial of the string it
    /// is tuned to was found which its own has to meet, and what stiffness adds; also 0 while that string has itself to
    /// be set.
    [[nodiscard]] Cents aimOf(std::size_t step) const;

    /// The string to play next: of a sweep the first not heard yet, else the step's.
    [[nodiscard]] StringId stringToPlay(std::size_t step) const;

    /// How the instrument shall stand for a step.
    [[nodiscard]] const Drawing& drawingOf(std::size_t step) const;
};

/// How many of the last marks in a row were too unsure to count.
[[nodiscard]] std::size_t unsureInARow(const StepProgress& progress);

/// **Range** plan not null and not empty. `known`: where strings stand that the plan does not set, from their own
/// targets.
[[nodiscard]] Session begin(std::shared_ptr<const TuningPlan> plan,
                            std::map<StringId, Mark> known = {});

/// The session after one event. Undo is left alone: it needs a history.
[[nodiscard]] Session apply(const Session& session, const SessionEvent& event);

/// How far the strings of a choir that were set had to move, on average and without sign, since the choir was begun or
/// begun again; a rough pass before does not count. 0 where none was set.
[[nodiscard]] Cents averageMove(const Session& session, std::size_t choir);

/// A choir that moved by more on average has pulled the others and itself along. Common practice, no source.
inline constexpr Cents kPullsAlong{10.0};

/// The choirs that are done and moved by more than kPullsAlong: a second pass is due.
[[nodiscard]] std::vector<std::size_t> choirsToRepeat(const Session& session);

/// The partials by which a string is tuned to others, or others to it; each once, ascending. Of strings that meet none
/// there is no entry.
[[nodiscard]] std::map<StringId, std::vector<int>> meetingPartials(const TuningPlan& plan);

/// Where the string asked for was last heard, from its target, where that is so far away that it could be taken for its
/// neighbour: more than 35 cents.
[[nodiscard]] std::optional<Cents> heardFar(const Session& session);

/// What the analysis listens for now: of `strings` those whose choirs sound with the registers of the step, the
/// string asked for with its target where it belongs.
[[nodiscard]] AnalysisTarget listenFor(const Session& session,
                                       const std::vector<ExpectedString>& strings);

/// A session, the ones before it, one a decision, and all events since its beginning.
class SessionHistory {
public:
    explicit SessionHistory(Session first) : now_(std::move(first)) {}

    [[nodiscard]] const Session& now() const { return now_; }

    void apply(const SessionEvent& event);

    [[nodiscard]] bool canUndo() const { return !past_.empty(); }

    /// Takes back the last decision; nothing where there is none. At most the last 64.
    void undo();

    /// Every event since the beginning: applied to the same first session they lead to the same state.
    [[nodiscard]] const std::vector<SessionEvent>& events() const { return events_; }

private:
    Session now_;
    std::vector<Session> past_;
    std::vector<SessionEvent> events_;
};

/// The history that led somewhere, made again.
[[nodiscard]] SessionHistory replay(Session first, const std::vector<SessionEvent>& events);

} // namespace quillbench
