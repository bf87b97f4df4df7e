#pragma once

#include "app/models/tuning_model.hpp"
#include "app/storage/log_writer.hpp"

#include <QObject>
#include <QTimer>
#include <future>
#include <map>
#include <memory>
#include <optional>
#include <vector>

namespace quillbench {

/// What every reading is kept with.
struct SoundFacts {
    QString source; ///< its name for people
    bool virtualInstrument = false;
    double rateHz = 0;
    ClockCalibration clock;
};

/// Keeps the session in the logbook as it goes, and takes up one that was interrupted: every event that counts, and
/// with it each step that got another state and the reading by which it settled. Nobody waits for the disk.
/// **Thread** GUI.
class SessionJournal : public QObject {
    Q_OBJECT

public:
    explicit SessionJournal(TuningModel& tuning, QObject* parent = nullptr);
    ~SessionJournal() override;

    /// Opens the logbook; a damaged one is repaired first, and that is told. **Errors** as Logbook::open, or that it
    /// cannot be written; then nothing is kept, and the program goes on.
    [[nodiscard]] Result<void> open(const std::filesystem::path& file);

    /// The same on a thread of its own: looking at every row of a large logbook takes seconds. opened() comes when it is
    /// done; what happens until then is kept afterwards.
    void openInBackground(const std::filesystem::path& file);

    /// Empty while no logbook is open.
    [[nodiscard]] const std::filesystem::path& file() const { return file_; }

    /// Ends the session and lets the logbook go, so that another file can be put in its place.
    void close();

    /// Keeps something else in the same logbook, after what was kept before; nothing while none is open or opened.
    /// **Range** as LogWriter::Change.
    void post(LogWriter::Change change);

    [[nodiscard]] const SoundFacts& sound() const { return sound_; }

    /// What readings are heard through from now on. Another kind of instrument (virtual or not) leaves the session.
    void setSound(const SoundFacts& sound);

    /// Takes up the newest unfinished session if it was begun with the same choice at the same kind of instrument and
    /// something was decided in it. Its options are those it was begun with, whatever is wanted of the next. True: it
    /// was.
    bool takeUp();

    /// How many changes were handed to the logbook, and kept.
    [[nodiscard]] LogWriter::State state() const;

    /// Waits until a logbook that is being opened is open, then until everything is kept, or two seconds.
    void settle();

Q_SIGNALS:
    /// The logbook is open, or why it is not.
    void opened(const QString& trouble);
    /// All changes so far are kept: so many since the start.
    void kept(std::size_t changes);
    /// A session was taken up with so many strings settled, kept or skipped.
    void takenUp(std::size_t done);
    /// Something about the logbook that a person should know; empty: what was said last holds no more.
    void told(const QString& text);

private:
    /// A logbook as it was found.
    struct Found {
        std::optional<Logbook> logbook;
        std::optional<SavedSession> unfinished;
        std::vector<QString> remarks; ///< what a person should know
    };

    [[nodiscard]] static Result<Found> find(const std::filesystem::path& file,
                                            const std::string& planner);
    [[nodiscard]] Result<void> adopt(Result<Found> found);
    void arrive();
    void keepEarly();
    void keepNow(const SessionEvent& event, const Session& before);
    void leave();
    void beginAfresh();
    void note(const SessionEvent& event, const Session& before);
    void write(const SessionEvent& event, std::vector<ReachedStep> steps);
    [[nodiscard]] std::vector<ReachedStep> stepsReached(const SessionEvent& event,
                                                        const Session& before);
    [[nodiscard]] KeptReading keptReading(std::size_t step) const;
    void remember(const SessionEvent& event);
    void look();

    TuningModel& tuning_;
    std::filesystem::path file_;
    std::unique_ptr<LogWriter> writer_;
    QTimer timer_;
    SoundFacts sound_;
    std::string uid_; ///< of the session that is written; empty: none was begun
    int place_ = 0;   ///< of the next event
    bool allDone_ = false;
    bool goesOn_ = false;              ///< with a session that was taken up, and said so
    std::vector<SessionEvent> before_; ///< events that alone are no reason to begin a session
    std::map<StringId, StringReading> heard_;         ///< the last of each string
    std::map<std::size_t, KeptReading> keptReadings_; ///< the last of each step
    std::optional<SavedSession> unfinished_;          ///< as it was when the logbook was opened
    std::size_t keptBefore_ = 0;
    std::string troubleBefore_;
    std::vector<SessionEvent> early_;             ///< while the logbook was being opened
    std::optional<Session> beforeEarly_;          ///< before the first of them
    std::vector<LogWriter::Change> earlyChanges_; ///< the same
    std::future<Result<Found>> opening_;          ///< last: waits for its thread
};

} // namespace quillbench
