#pragma once

#include "app/storage/logbook.hpp"
#include "core/instrument/instrument.hpp"

#include <QString>
#include <QStringList>
#include <optional>
#include <vector>

namespace quillbench {

// What the place Logbook shows: values made by the reader; the widgets only show them.

/// One session in the list.
struct SessionLine {
    RowNumber session = 0;
    QString date;
    QString kind; ///< "first octave", "recheck"
    QString instrument;
    QString temperament;
    QString pitch;
    QString source;
    QString strings; ///< "13 settled"
    QString end;     ///< "done", "left", "open"
};

/// One string that was kept or heard in a session.
struct ReadingLine {
    QString choir;
    QString key;
    QString state;
    QString before; ///< where it was first heard; empty where that is not known
    QString after;
    QString uncertainty;
    QString hertz;
    QString window; ///< "3 plucks, 2.4 s"
    QString remarks;
    QString how; ///< "by meter", "by ear"
    QString
        since; ///< how far it has moved by the newest recheck before it was tuned again; empty where not heard
};

/// Something that was written down: a remark, the air, a new string, a clock.
struct DiaryLine {
    QString date;
    QString what;
    QString about; ///< the string, or empty
    QString text;
};

/// One session with all that belongs to it, and the diary of its instrument.
struct OpenedSession {
    RowNumber session = 0;
    std::string uid;
    QString title;
    std::vector<ReadingLine> readings;
    std::vector<DiaryLine> diary;
    QString rechecked;                    ///< when; empty: not since
    InstrumentState state;                ///< as last described
    std::optional<Instrument> instrument; ///< nothing where its description cannot be read
};

/// What one string tends to do.
struct TendencyLine {
    QString string;
    QString rate;        ///< cents a week
    QString uncertainty; ///< of it
    QString looks;
    QString habit;
    double size = 0; ///< of the rate, for the order
};

struct TendencyPicture {
    QString sentence;                  ///< when a retune will be due, or why that is not known
    QStringList choirs;                ///< how each drifts
    QStringList newStrings;            ///< how replaced strings settle, and which are still at it
    std::vector<TendencyLine> strings; ///< the fastest first
};

/// The whole list.
struct LogbookPicture {
    QString file;
    QString trouble; ///< one line; empty: all is well
    bool readable = false;
    bool writable = false;
    std::vector<SessionLine> sessions; ///< newest first
};

} // namespace quillbench
