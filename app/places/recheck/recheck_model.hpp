#pragma once

#include "app/formats/logbook_history.hpp"
#include "app/models/background_work.hpp"
#include "app/models/live_model.hpp"
#include "app/models/session_journal.hpp"
#include "app/models/tuning_model.hpp"
#include "app/places/logbook/logbook_model.hpp"
#include "core/drift/recheck.hpp"
#include "core/workflow/drawing.hpp"
#include "core/workflow/minutes.hpp"

#include <QObject>
#include <memory>
#include <optional>
#include <string>

namespace quillbench {

/// A choir played upwards and compared with how it was left: what was heard, what moved, what is worth the hammer.
/// What is heard is kept in the logbook. **Thread** GUI.
class RecheckModel : public QObject {
    Q_OBJECT

public:
    RecheckModel(TuningModel& tuning,
                 SessionJournal& journal,
                 LogbookModel& logbook,
                 QObject* parent = nullptr);

    /// The place is seen: the choir's register is drawn, and the logbook is asked how the strings were left.
    void enter();

    /// It is not seen any more: the registers are drawn as before.
    void leave();

    [[nodiscard]] bool entered() const { return before_.has_value(); }

    /// Forgets what was heard; what was kept stays kept.
    void beginAgain();

    /// So many days went by on the virtual instrument, whose strings drifted; what was heard is forgotten.
    void letPass(double days);

    /// Since this session was chosen.
    [[nodiscard]] double daysPassed() const { return daysPassed_; }

    /// Ends what is kept: no more comes.
    void end();

    [[nodiscard]] const Instrument& instrument() const { return tuning_.instrument(); }

    [[nodiscard]] std::size_t choir() const { return choir_; }

    /// **Range** choir < choirs.
    void chooseChoir(std::size_t choir);

    /// How far an interval may be out before it is worth the hammer.
    [[nodiscard]] Cents tolerance() const { return tolerance_; }

    void setTolerance(Cents tolerance);

    /// How much time there is for the hammer; 0: as much as it takes.
    [[nodiscard]] int minutes() const { return minutes_; }

    /// **Range** 0 to 600.
    void setMinutes(int minutes);

    /// What that time is best spent on, of the strings heard; nothing while minutes() is 0 or nothing is heard.
    [[nodiscard]] const std::optional<UseOfMinutes>& bestUse() const { return use_; }

    /// Every string of the choir, about where it was left.
    [[nodiscard]] std::shared_ptr<const AnalysisTarget> target() const { return target_; }

    /// A finished reading, heard `at` since the source started. **Range** entered().
    void hear(const StringReading& reading, Seconds at);

    [[nodiscard]] const Recheck& recheck() const { return recheck_; }

    [[nodiscard]] const StringHistory& history() const { return history_; }

    /// The drift taken apart; nothing before enough settled strings were heard.
    [[nodiscard]] const std::optional<DriftFit>& fit() const { return fit_; }

    /// Nothing before two strings that sound together were heard.
    [[nodiscard]] const std::optional<RecheckAdvice>& advice() const { return advice_; }

    /// How many strings that were heard advice() leaves out: never settled, among others that were.
    [[nodiscard]] std::size_t leftOut() const { return leftOut_; }

    /// How many strings advice() was given.
    [[nodiscard]] std::size_t judged() const { return judged_; }

    /// The key to play next: going up, then those to be played again; nothing: all is heard.
    [[nodiscard]] std::optional<std::size_t> nextKey() const;

    /// Keys of the choir whose string should be played once more.
    [[nodiscard]] std::vector<std::size_t> playAgain() const;

    /// Keys of the choir whose string was not heard yet, upwards.
    [[nodiscard]] std::vector<std::size_t> unheardKeys() const;

    /// How many strings of the choir a key plays, and how many of them were heard.
    [[nodiscard]] std::size_t strings() const;
    [[nodiscard]] std::size_t heardOfChoir() const;

    /// How the instrument must stand for the choir.
    [[nodiscard]] const Drawing& drawing() const { return drawing_; }

    /// Why the last pluck did not count.
    [[nodiscard]] Hearing hearing() const { return hearing_; }

    /// The session that is kept now; empty: none was begun.
    [[nodiscard]] const std::string& keptUid() const { return uid_; }

    /// Whether the logbook was read since the place was entered.
    [[nodiscard]] bool historyRead() const { return historyRead_; }

    [[nodiscard]] const TuningModel& tuning() const { return tuning_; }

    /// Waits for what is worked out: for tests.
    void finish();

Q_SIGNALS:
    void changed();
    void targetChanged();

private:
    void startChoir();
    void readHistory();
    void compare();
    void renewTarget();
    void workOut();
    void advise();
    [[nodiscard]] std::optional<UseOfMinutes>
    bestUseOf(const std::map<StringId, Cents>& deviations) const;
    [[nodiscard]] std::size_t leaveOutUnsettled(std::map<StringId, Cents>& deviations) const;
    void keep(const StringReading& reading, Cents uncertainty, Seconds at);
    [[nodiscard]] KeptReading keptReading(const StringReading& reading) const;
    [[nodiscard]] std::optional<StringId> stringAt(std::size_t key) const;

    TuningModel& tuning_;
    SessionJournal& journal_;
    LogbookModel& logbook_;
    double daysPassed_ = 0.0;
    BackgroundWork work_;
    std::optional<Registration> before_; ///< how Tune had the registers
    std::size_t choir_ = 0;
    Cents tolerance_{3.0};
    int minutes_ = 0;
    Drawing drawing_;
    StringHistory history_;
    bool historyRead_ = false;
    Recheck recheck_;
    std::optional<std::size_t> lastKey_;
    Hearing hearing_ = Hearing::Good;
    std::optional<DriftFit> fit_;
    std::optional<RecheckAdvice> advice_;
    std::optional<UseOfMinutes> use_;
    std::size_t leftOut_ = 0;
    std::size_t judged_ = 0;
    bool adviseAgain_ = false;
    std::shared_ptr<const AnalysisTarget> target_;
    std::string uid_; ///< of the session that is kept; empty: none was begun
    int place_ = 0;   ///< of its next event
};

} // namespace quillbench
