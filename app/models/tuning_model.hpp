#pragma once

#include "app/models/choices.hpp"
#include "core/analysis/pair_heard.hpp"
#include "core/analysis/target.hpp"
#include "core/instrument/instrument.hpp"
#include "core/temperament/temperament.hpp"
#include "core/temperament/transposing.hpp"
#include "core/workflow/guidance.hpp"
#include "core/workflow/session.hpp"

#include <QObject>
#include <memory>
#include <optional>

namespace quillbench {

/// The session as Qt sees it: what is tuned, how far it is, what to do now. The truth is the core's Session; this only
/// applies events to it and says that it changed. **Thread** GUI.
class TuningModel : public QObject {
    Q_OBJECT

public:
    explicit TuningModel(QObject* parent = nullptr);

    /// Begins a new session. **Errors** BadArgument or UnreadableInput naming the choice; then nothing changes.
    [[nodiscard]] Result<void> choose(const TuningChoice& choice);

    /// As choose(), with the instrument given: a file that was read, or an instrument of a test.
    [[nodiscard]] Result<void> choose(const TuningChoice& choice, const Instrument& instrument);

    /// Begins a new session with the choice at hand and the options wanted of the next, at the standard that stood before
    /// a first look shifted it. **Range** ready().
    /// **Errors** as choose().
    [[nodiscard]] Result<void> chooseAgain();

    /// Goes on after a first look with the standard shifted: a new session of what the plan has after it, which knows
    /// what was heard. A choir that has to move far gets a rough pass. **Range** ready(). **Errors** as choose().
    [[nodiscard]] Result<void> goOnAt(Cents shift);

    /// What the next session shall have; the one at hand keeps its plan. choose() does with what it is given.
    void setOptionsOfNext(const SessionOptions& options) { optionsOfNext_ = options; }

    [[nodiscard]] const SessionOptions& optionsOfNext() const { return optionsOfNext_; }

    /// False before the first choose() that succeeded; then nothing else may be asked.
    [[nodiscard]] bool ready() const { return history_.has_value(); }

    [[nodiscard]] const TuningChoice& choice() const { return choice_; }

    /// Its keys are named as the temperament spells them: D♯ where there is no E♭.
    [[nodiscard]] const Instrument& instrument() const { return instrument_; }

    /// The same, its keys named as in its file.
    [[nodiscard]] const Instrument& instrumentAsBuilt() const { return asBuilt_; }

    [[nodiscard]] const Temperament& temperament() const { return scale_->temperament; }

    /// Index of the choir that is tuned.
    [[nodiscard]] std::size_t choir() const { return session().plan->choir; }

    /// Where the keyboard stands, one of Instrument::positions.
    [[nodiscard]] int position() const { return position_; }

    /// Which registers are on: what may sound, and is listened for. After choose() that of the choir alone.
    [[nodiscard]] const Registration& registration() const { return registration_; }

    /// Draws registers and coupler. Registers the instrument lacks are left out.
    void draw(const Registration& registration);

    /// The manual that is played: the lowest one with a register on.
    [[nodiscard]] std::size_t manual() const;

    /// The strings that a key plays with the registers that are on; of the choir alone where none is.
    [[nodiscard]] std::vector<StringId> stringsOf(std::size_t key) const;

    /// How the tuning fares at each position of the keyboard; A and the temperament hold at position().
    [[nodiscard]] std::vector<PositionReport> positions() const;

    [[nodiscard]] const Session& session() const { return history_->now(); }

    /// The session as it would be if the pluck that sounds now ended now: what is shown while it sounds. A reading
    /// that is not sure yet, or was heard to its end already, adds nothing; null: nothing sounds.
    [[nodiscard]] Session provisional(const AnalysisSnapshot* snapshot) const;

    /// Keeps the string that is shown as it is: by meter that of a pluck that still sounds, which has yet to get its last
    /// word, where it is another than the session's.
    void keepShown(const AnalysisSnapshot* snapshot);

    /// The key that plays the string that is asked for, of a sweep the next one; where none is asked for that of the
    /// current step. **Range** ready().
    [[nodiscard]] std::size_t keyToPlay() const;

    /// What every string of the instrument should sound.
    [[nodiscard]] Hertz targetOf(StringId string) const;

    /// What is known of a string at its target.
    [[nodiscard]] StringFacts factsOf(StringId string) const;

    /// What the analysis should listen for.
    [[nodiscard]] std::shared_ptr<const AnalysisTarget> target() const { return target_; }

    /// Part of every uncertainty: the sound card's clock.
    void setClock(const ClockCalibration& clock) { clock_ = clock; }

    /// Uncertainty of a deviation with the clock's in it.
    [[nodiscard]] Cents withClock(Cents uncertainty) const;

    /// A finished reading, heard `at` since the source started.
    void hear(const StringReading& reading, Seconds at);

    /// The last word on two strings together. It counts where the plan brings the one to the other; not while the pin
    /// was turned.
    void hear(const PairReading& reading, Seconds at);

    void act(const SessionEvent& event);

    /// An event of a session that is taken up: as act(), but nobody is told that it happened.
    void replay(const SessionEvent& event);

    [[nodiscard]] bool canUndo() const { return ready() && history_->canUndo(); }

    void undo();

Q_SIGNALS:
    /// Another instrument, choir, temperament or pitch: a new session.
    void chosen();
    /// An event was applied, to this session; it comes before what says that something changed.
    void applied(const quillbench::SessionEvent& event, const quillbench::Session& before);
    /// Any change of the session.
    void sessionChanged();
    void targetChanged();
    void registrationChanged();
    /// A step got another state: settled, kept, skipped, or at work again.
    void stepChanged(std::size_t step, quillbench::StepState state);

private:
    void changeTo(const Session& before);
    void standAsPlanned();
    void renewTarget();
    void listStrings();

    TuningChoice choice_;
    SessionOptions optionsOfNext_;
    Instrument asBuilt_;
    Instrument instrument_;
    std::optional<TunedScale> scale_;
    int position_ = 0;
    Registration registration_;
    ClockCalibration clock_;
    std::vector<ExpectedString> strings_;
    std::optional<SessionHistory> history_;
    std::optional<FrameIndex> heardToItsEnd_; ///< the last pluck whose finished reading came
    std::shared_ptr<const AnalysisTarget> target_;
};

} // namespace quillbench
