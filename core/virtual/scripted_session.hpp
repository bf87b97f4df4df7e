#pragma once

#include "core/analysis/analyser.hpp"
#include "core/virtual/scripted_ear.hpp"
#include "core/virtual/scripted_player.hpp"
#include "core/virtual/virtual_instrument.hpp"
#include "core/workflow/guidance.hpp"
#include "core/workflow/session.hpp"

#include <cstdint>
#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <span>
#include <vector>

namespace quillbench {

/// What goes wrong on purpose.
struct ScriptedMishaps {
    /// From this step on, at the first string that stands well off, the hammer sits on the neighbouring pin until the
    /// player is told. A string that stands near its target may rightly be left where it is: nobody would notice.
    std::optional<std::size_t> wrongPin;
    std::optional<StringId> slips; ///< sinks by slipBy when it has settled
    Cents slipBy{4.0};
    /// After so many plucks the program is gone in the middle: all is lost but the events that were kept.
    std::optional<std::size_t> powerCut;
};

struct ScriptedSettings {
    VirtualSettings instrument;
    std::uint64_t seed = 1;
    double spread = 0.25; ///< of a turn, as a part of it
    ScriptedMishaps mishaps;
    bool byEar =
        false; ///< after the bearings, which are set by meter, everything is tuned by beats
    std::size_t mostPlucks = 6000;
    /// Told of every event when it has happened, so that it may be kept elsewhere.
    std::function<void(const SessionEvent&)> keep;
    /// After the power cut: the events that were kept, in order. Without it all that ever happened.
    std::function<std::vector<SessionEvent>()> takeUp;
};

/// How one string came out, from its own motion; no estimator is involved.
struct JudgedString {
    std::size_t step = 0;
    Cents before; ///< rest pitch from the target before the session
    // A partial's mean frequency differs by how the motion divides between its polarisations, and by which part of it
    // sounds together with the other string: what follows are medians of nine plucks that nobody heard, either string first.
    Cents after; ///< sustain pitch from the target
    std::optional<Cents>
        pairWidth; ///< of the pair it was tuned by, from what was wanted, at the followed partials
    std::optional<BeatRate> pairBeat; ///< the same in beats
    Cents pairRange;                  ///< of these widths, narrowest to widest
    std::size_t plucks = 0;
};

/// Somebody who does what the session asks, at the virtual instrument, heard by the live ear, all on the sound's own
/// clock. Draws the registers of each step and plays its keys.
class ScriptedSession {
public:
    /// **Range** plan made for `instrument`, at the position of settings.instrument.
    ScriptedSession(const Instrument& instrument, TuningPlan plan, ScriptedSettings settings);

    /// Until everything is done or the patience ends; `after` is called after each pluck. True: done.
    bool run(const std::function<void(const ScriptedSession&)>& after = {});

    [[nodiscard]] const Session& session() const { return history_.now(); }

    [[nodiscard]] const SessionHistory& history() const { return history_; }

    [[nodiscard]] std::size_t plucks() const { return plucks_; }

    /// Sound that was made.
    [[nodiscard]] Seconds playing() const;

    /// What the hand would need beside it: kFindPin for each pin it goes to, kTurn for each turn.
    [[nodiscard]] Seconds handTime() const { return handTime_; }

    /// How often the guard held the step, and when it first did after the hammer came to a wrong pin (plucks).
    [[nodiscard]] std::size_t guardStops() const { return guardStops_; }

    [[nodiscard]] std::optional<std::size_t> wrongPinPlucks() const { return wrongPinPlucks_; }

    [[nodiscard]] std::size_t reopened() const { return reopened_; }

    /// How many times choirs that had moved far were set once more.
    [[nodiscard]] std::size_t secondPasses() const { return secondPasses_; }

    /// How often a pedal, key or mouse button was pressed: strings accepted, left or chosen, a second pass begun, the way
    /// of working changed. Playing is none.
    [[nodiscard]] std::size_t touches() const { return touches_; }

    /// Whether a string was given a false beat.
    [[nodiscard]] bool hasFalseBeat(StringId string) const;

    /// Whether the session that was taken up after the power cut stood where it had been.
    [[nodiscard]] std::optional<bool> tookUpWhole() const { return tookUpWhole_; }

    /// The highest that a string with a step was ever put above its target.
    [[nodiscard]] Cents highest() const { return highest_; }

    /// Plucks every string of the plan once more, unheard, and looks at its motion.
    [[nodiscard]] std::vector<JudgedString> judge();

    static constexpr Seconds kFindPin{6.0}; ///< own estimate, no source
    static constexpr Seconds kTurn{1.5};

private:
    void happen(const SessionEvent& event);
    void draw(const Drawing& drawing);
    void command(VirtualCommand what);
    void work(std::size_t step, const Guidance& guidance);
    void workByEar(std::size_t step, const Guidance& guidance);
    void comeTo(std::size_t step, const Guidance& guidance);
    void turn(std::size_t step, Degree degrees);
    void play(std::size_t step, StringId string);
    void pressPair(std::size_t step, bool down);
    void playPair(std::size_t step);
    [[nodiscard]] bool wantsReference(std::size_t step);
    void judgeByEar(std::size_t step);
    void damp();
    void rest(int blocks);
    void judge(const TuningStep& step, JudgedString& one);
    void waitForWord();
    void countPluck(std::size_t step);
    void hear(Seconds time);
    void take(const AnalysisSnapshot& snapshot);
    [[nodiscard]] bool wrongPinNow(std::size_t step) const;
    void mishaps();
    void slip(StringId string);
    void cutPower();
    void feel(std::size_t step);
    std::vector<PluckRecord> pluckUnheard(std::span<const StringId> strings, int blocksApart);

    Instrument instrument_;
    ScriptedSettings settings_;
    std::shared_ptr<const TuningPlan> plan_;
    SessionHistory history_;
    VirtualInstrument virtual_;
    Analyser analyser_;
    ScriptedPlayer player_;
    std::vector<ExpectedString> strings_;
    std::map<StringId, Hertz> before_;
    std::map<std::size_t, std::size_t> plucksOf_;
    std::optional<Drawing> drawn_;
    std::optional<std::size_t> atPin_;
    std::optional<std::size_t> listenedTo_;  ///< the pair that the ear heard last
    std::optional<std::size_t> referenceOf_; ///< the step whose other string was plucked alone
    std::size_t referencePlayed_ = 0;
    ScriptedEar ear_;
    Random hand_;
    std::optional<Cents> wantsToMove_; ///< after a pair was heard: the ear is not content
    std::size_t pairsUnread_ = 0;      ///< the ear was content, and the program had heard nothing
    std::optional<double> asked_;      ///< degrees of the last turn
    double stiff_ = 1.0;               ///< how much more than asked this pin wants
    std::size_t plucks_ = 0;
    std::size_t guardStops_ = 0;
    std::optional<std::size_t> wrongPinPlucks_;
    bool turnedHere_ = false; ///< the pin that the hammer sits on, since it came there
    bool onWrongPin_ = false;
    bool lookAtNeighbour_ = false;
    bool slipped_ = false;
    std::size_t reopened_ = 0;
    std::size_t secondPasses_ = 0;
    std::size_t touches_ = 0;
    std::optional<bool> tookUpWhole_;
    Cents highest_;
    Seconds handTime_{0};
    FrameIndex playedAt_;
    bool listensToPair_ = false;
    bool heard_ = false;
};

} // namespace quillbench
