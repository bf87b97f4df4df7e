#pragma once

#include "app/places/practise/practise_model.hpp"
#include "app/places/practise/practise_sound.hpp"
#include "core/logbook/records.hpp"

#include <QObject>
#include <optional>
#include <utility>
#include <vector>

namespace quillbench {

class PractisePage;
class SettingsStore;
class LiveModel;
class LogbookModel;
class SessionJournal;
class SoundBench;
class TuningModel;

/// The place Practise with all it needs: its sound, its model, its page. While the page is seen the loudspeaker is its
/// own, and what the session listens to meanwhile is not the instrument's business. What is practised goes to the
/// logbook, and comes back from it. **Thread** GUI.
class PractisePlace : public QObject {
    Q_OBJECT

public:
    /// All must outlive this. The temperament is the session's.
    PractisePlace(SoundBench& bench,
                  SettingsStore& settings,
                  const TuningModel& tuning,
                  SessionJournal& journal,
                  LogbookModel& logbook,
                  LiveModel& live,
                  QObject* parent = nullptr);

    /// Whoever takes it owns it; it must go before this object does.
    [[nodiscard]] PractisePage* page() const { return page_; }

    /// Practice sounds, or may: what a microphone hears now is not the instrument.
    [[nodiscard]] bool seen() const { return seen_; }

    /// What the loudspeaker is known to prefer: the next questions are made for it.
    void setOutputRate(SampleRate rate) { sound_.setRate(rate); }

    /// What the analysis shall listen for while the learner plays an instrument; null: nothing of ours.
    [[nodiscard]] std::shared_ptr<const AnalysisTarget> target() const;

Q_SIGNALS:
    void targetChanged();
    /// An exercise stands, sounds, is measured or uncovered; its strings as "8:C4".
    void cameTo(const QString& phase, const QString& lower, const QString& upper, int multiple);

private:
    void followPhase();
    void followTuning();
    void readBefore();
    void listen(LiveModel& live);
    void useOwn(bool own);
    void keep(const PracticeTrial& trial, const Note& lowerKey);
    void showLoudspeaker();

    SoundBench& bench_;
    SettingsStore& settings_;
    const TuningModel& tuning_;
    SessionJournal& journal_;
    LogbookModel& logbook_;
    PractiseSound sound_;
    PractiseModel model_;
    PractisePage* page_;
    std::vector<PractiseRecord>
        ownRecords_; ///< of this sitting: in the logbook they come after those before
    std::optional<std::pair<std::uint64_t, PractisePhase>>
        told_; ///< exercise and phase by cameTo()
    bool seen_ = false;
};

} // namespace quillbench
