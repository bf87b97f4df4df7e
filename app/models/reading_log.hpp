#pragma once

#include "app/models/live_model.hpp"
#include "app/models/tuning_model.hpp"

#include <QFile>
#include <QJsonObject>
#include <QObject>
#include <QStringList>

namespace quillbench {

/// Writes every finished reading, every change of a step and every change of the source as one JSON object a line,
/// flushed at once: what the window heard can be read by a script while it goes on.
/// Kinds: reading, step, source, gap, practise (an exercise goes on), recheck (what a choir played upwards has shown so
/// far), taken-up (a session from the logbook), kept (changes in the logbook so far), frames (the last line).
/// **Thread** GUI.
class ReadingLog : public QObject {
    Q_OBJECT

public:
    ReadingLog(const TuningModel& tuning, LiveModel& live, QObject* parent = nullptr);
    ~ReadingLog() override;

    /// **Errors** Environment: the file cannot be written.
    [[nodiscard]] Result<void> open(const QString& path);

    /// The logbook has kept so many changes since the start.
    void writeKept(std::size_t changes);

    /// A session with so many strings done was taken up.
    void writeTakenUp(std::size_t done);

    /// An exercise at Practise has come so far: its phase, its two strings ("8:C4"), the multiple of the lowest partials
    /// that meet to which the ear is sent.
    void
    writePractise(const QString& phase, const QString& lower, const QString& upper, int multiple);

    /// What a recheck has shown so far: strings heard, drift of the whole in cents, and the strings worth the hammer at
    /// the pitch as it is, the most gain first; the same with the pitch moved by so many cents, where those are fewer.
    void writeRecheck(std::size_t heard,
                      double wholeCents,
                      const QStringList& worthTheHammer,
                      const QStringList& withPitchMoved,
                      double movedCents);

    /// Seconds are told from frames by this rate.
    void setRate(SampleRate rate) { rate_ = rate; }

private:
    void write(QJsonObject line);
    void writeReading(const StringReading& reading);
    void writeStep(std::size_t step, StepState state);
    void writeSource();

    const TuningModel& tuning_;
    LiveModel& live_;
    SampleRate rate_;
    QFile file_;
    int lines_ = 0;
};

} // namespace quillbench
