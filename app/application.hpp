#pragma once

#include "app/file_opener.hpp"
#include "app/launch_options.hpp"
#include "app/models/desktop_wishes.hpp"
#include "app/models/device_model.hpp"
#include "app/models/live_model.hpp"
#include "app/models/reading_log.hpp"
#include "app/models/session_journal.hpp"
#include "app/models/settings_store.hpp"
#include "app/models/sound_bench.hpp"
#include "app/models/speaker.hpp"
#include "app/models/tuning_model.hpp"
#include "app/models/virtual_player.hpp"
#include "app/places/action/action_model.hpp"
#include "app/places/instrument/instrument_model.hpp"
#include "app/places/logbook/logbook_model.hpp"
#include "app/places/practise/practise_place.hpp"
#include "app/places/recheck/recheck_model.hpp"
#include "app/places/temperament/step_audition.hpp"
#include "app/places/temperament/temperament_model.hpp"
#include "app/views/file_drop.hpp"
#include "app/views/main_window.hpp"
#include "app/views/notice.hpp"
#include "core/temperament/heard_standard.hpp"

#include <QObject>
#include <cstdint>
#include <string>

namespace quillbench {

class TemperamentPage;

/// Owns everything, in the order in which it must begin and end: settings, sound, models, window.
/// **Thread** GUI; a QApplication must exist before and after it.
class Application : public QObject {
    Q_OBJECT

public:
    explicit Application(const LaunchOptions& options);
    ~Application() override;

    /// Chooses as the command line and the last session say, opens the sound and shows the window.
    /// **Errors** a choice of the command line that cannot be; nothing is shown then.
    [[nodiscard]] Result<void> begin();

    [[nodiscard]] MainWindow& window() { return window_; }

    [[nodiscard]] TuningModel& tuning() { return tuning_; }

    [[nodiscard]] VirtualPlayer& player() { return player_; }

    [[nodiscard]] LiveModel& live() { return live_; }

    [[nodiscard]] ActionModel& action() { return action_; }

    [[nodiscard]] SessionJournal& journal() { return journal_; }

    [[nodiscard]] LogbookModel& logbook() { return logbook_; }

    [[nodiscard]] RecheckModel& recheck() { return recheck_; }

    /// Files go to the places they belong to.
    [[nodiscard]] FileOpener& files() { return files_; }

    /// Somebody started the program again: the window comes to the front and opens these files.
    void comeForwardWith(const QStringList& files);

    void chooseTuning(const TuningChoice& choice);
    void chooseSource(const SourceChoice& choice);

    /// Kept at once; a session in which nothing was done yet is made anew with them.
    void chooseOptions(const SessionOptions& options);

private:
    void connectAll();
    void addInstrumentPlace();
    void readNewStrings();
    void readLeft();
    void readLeftForLook();
    void addTemperamentPlace();
    [[nodiscard]] Result<void> chooseAtStart(TuningChoice choice);
    void audition(TemperamentPage& page, const BearingStep& step);
    void leaveAudition(Place next);
    void addActionPlace();
    void renewTarget();
    void addPlaces();
    void connectLogbook();
    void letDaysPass(double days);
    [[nodiscard]] Result<std::filesystem::path> logbookFile() const;
    void openLogbook();
    void goOnFrom(const QString& trouble);
    void writeRecheck();
    void tellJournal(double rateHz, const ClockCalibration& clock);
    [[nodiscard]] Result<void> openSource(const SourceChoice& choice);
    [[nodiscard]] Result<void> listenTo(const QString& recording);
    void sourceOpened();
    [[nodiscard]] VirtualSettings virtualStrings() const;
    void askForFile();
    void askForPreferences();
    void askForOptions();
    void askForCalibration();
    void askForHeardPitch();
    void keepHeardPitch(const HeardStandard& heard, bool atOnce);
    void tellLookFacts();
    void
    keepCalibration(const QString& device, const ClockCalibration& clock, const std::string& how);
    void record(bool on);
    void turnSpeech(bool on);
    [[nodiscard]] bool isInstrument(FrameIndex pluck) const;
    [[nodiscard]] Place placeOf(FrameIndex pluck) const;
    void hear(const StringReading& reading);
    void wear();
    void askQuestions();
    [[nodiscard]] bool asksAtStart() const;
    void connectSeeing();
    void takePicture();
    [[nodiscard]] QString sourceName() const;

    LaunchOptions options_;
    SettingsStore settings_;
    SoundBench bench_;
    SourceChoice source_;
    TuningModel tuning_;
    InstrumentModel instrument_;
    TemperamentModel temperament_;
    SessionJournal journal_;
    LogbookModel logbook_;
    RecheckModel recheck_;
    LiveModel live_;
    VirtualPlayer player_;
    ActionModel action_;
    bool faultsToFind_ = false; ///< the virtual instrument has some
    DeviceModel devices_;
    ReadingLog log_;
    Speaker speaker_;
    PractisePlace practise_;
    StepAudition audition_;
    FrameIndex
        auditionFrom_; ///< of what the engine hears: until auditionTo_ its plucks are our own
    FrameIndex auditionTo_;
    MainWindow window_;
    Notice notice_;
    FileDrop drop_;
    FileOpener files_;
    bool systemIsDark_;
    DesktopWishes wishes_;
    QString recordingFile_;
    Place place_ = Place::Tune;
    Place placeBefore_ = Place::Tune;
    FrameIndex placeSince_;        ///< what was plucked before belongs to placeBefore_
    std::uint64_t daysPassed_ = 0; ///< how often: each time the strings drift otherwise
};

} // namespace quillbench
