#pragma once

#include "core/support/result.hpp"

#include <QObject>
#include <QStringList>
#include <functional>

namespace quillbench {

class InstrumentModel;
class LogbookModel;
class MainWindow;
class TemperamentModel;

/// Brings files to the places they belong to: a recording is listened to at Tune, instruments and their string lists go
/// to Instrument, temperaments to Temperament, exports of the logbook, after a question, to Logbook. **Thread** GUI.
class FileOpener : public QObject {
    Q_OBJECT

public:
    /// Listens to a recording in place of what was listened to. **Errors** it cannot be read; nothing is changed then.
    using Listen = std::function<Result<void>(const QString& file)>;

    FileOpener(MainWindow& window,
               InstrumentModel& instrument,
               TemperamentModel& temperament,
               LogbookModel& logbook,
               Listen listen);

    /// Opens each; of several of a kind that has room for one, the first. The place of the first file is seen then.
    void open(const QStringList& files);

Q_SIGNALS:
    /// What came of it, a line for each file.
    void told(const QString& text);

private:
    class Round;

    MainWindow& window_;
    InstrumentModel& instrument_;
    TemperamentModel& temperament_;
    LogbookModel& logbook_;
    Listen listen_;
};

} // namespace quillbench
