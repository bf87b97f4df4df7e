#include "app/places/logbook/logbook_model.hpp"

#include "app/formats/logbook_transfer.hpp"
#include "app/text/core_text.hpp"
#include "app/text/format.hpp"
#include "core/support/contract.hpp"

#include <utility>

namespace quillbench {

namespace {

/// What was read at once: the list, and the session that was asked for.
struct ReadAtOnce {
    LogbookPicture picture;
    std::optional<OpenedSession> opened;
    TendencyPicture tendencies;
};

ReadAtOnce readAtOnce(LogbookReader& reader, RowNumber session) {
    ReadAtOnce read;
    read.picture = reader.read();
    if (session == 0 && !read.picture.sessions.empty()) {
        session = read.picture.sessions.front().session;
    }
    read.opened = reader.open(session);
    if (read.opened) {
        read.tendencies = reader.tendencies(session);
    }
    return read;
}

QString complaint(const Error& error) {
    return errorText(error);
}

} // namespace

LogbookModel::LogbookModel(QObject* parent) : QObject(parent) {
    connect(&work_, &BackgroundWork::busyChanged, this, &LogbookModel::busyChanged);
}

void LogbookModel::setFile(const std::filesystem::path& file) {
    file_ = file;
    reader_ = std::make_shared<LogbookReader>(file);
    opened_.reset();
}

void LogbookModel::refresh() {
    if (!reader_) {
        return;
    }
    const RowNumber session = opened_ ? opened_->session : 0;
    work_.begin([this, reader = reader_, session] {
        auto read = std::make_shared<ReadAtOnce>(readAtOnce(*reader, session));
        return [this, read] {
            picture_ = std::move(read->picture);
            opened_ = std::move(read->opened);
            tendencies_ = std::move(read->tendencies);
            Q_EMIT changed();
            Q_EMIT openedChanged();
        };
    });
}

void LogbookModel::open(RowNumber session) {
    if (!reader_ || (opened_ && opened_->session == session)) {
        return;
    }
    work_.begin([this, reader = reader_, session] {
        auto read = std::make_shared<ReadAtOnce>();
        read->opened = reader->open(session);
        if (read->opened) {
            read->tendencies = reader->tendencies(session);
        }
        return [this, read] {
            opened_ = std::move(read->opened);
            tendencies_ = std::move(read->tendencies);
            Q_EMIT openedChanged();
        };
    });
}

/// Does something with the file and says what came of it.
void LogbookModel::tellOf(std::function<QString(LogbookReader&)> work, bool readAgain) {
    if (!reader_) {
        return;
    }
    work_.begin([this, reader = reader_, work = std::move(work), readAgain] {
        const QString text = work(*reader);
        return [this, text, readAgain] {
            Q_EMIT told(text);
            if (readAgain) {
                refresh();
            }
        };
    });
}

void LogbookModel::write(Change change, const QString& done) {
    tellOf(
        [change = std::move(change), done](LogbookReader& reader) {
            const Result<Logbook*> logbook = reader.toWrite();
            const Result<void> kept =
                logbook ? change(**logbook) : Result<void>(Unexpected<Error>(logbook.error()));
            return kept ? done : tr("Not kept: %1").arg(complaint(kept.error()));
        },
        true);
}

void LogbookModel::remark(const std::optional<StringName>& string, const QString& text) {
    EXPECTS(opened_.has_value());
    RemarkRecord record;
    record.text = text.toStdString();
    record.at = instantNow();
    write([state = opened_->state, uid = opened_->uid, string, record](
              Logbook& logbook) { return logbook.remark(state, uid, string, record); },
          tr("The remark is kept."));
}

void LogbookModel::climate(std::optional<double> temperatureC,
                           std::optional<double> humidityPercent) {
    EXPECTS(opened_.has_value());
    ClimateRecord record;
    record.temperatureC = temperatureC;
    record.humidityPercent = humidityPercent;
    record.at = instantNow();
    write([state = opened_->state, uid = opened_->uid, record](
              Logbook& logbook) { return logbook.climate(state, uid, record); },
          tr("Temperature and humidity are kept."));
}

void LogbookModel::stringReplaced(const StringName& string,
                                  std::optional<double> diameterMm,
                                  const QString& material,
                                  const QString& reason) {
    EXPECTS(opened_.has_value());
    StringChangeRecord record;
    record.diameterMm = diameterMm;
    if (!material.isEmpty()) {
        record.material = material.toStdString();
    }
    record.reason = reason.toStdString();
    record.at = instantNow();
    write([state = opened_->state, uid = opened_->uid, string, record](
              Logbook& logbook) { return logbook.stringChanged(state, uid, string, record); },
          tr("The new string is kept. A recheck no longer compares it with the old one."));
}

void LogbookModel::exportJson(const std::filesystem::path& to) {
    tellOf(
        [to](LogbookReader& reader) {
            const Result<Logbook*> logbook = reader.logbook();
            const Result<LogbookContents> contents =
                logbook ? (*logbook)->contents()
                        : Result<LogbookContents>(Unexpected<Error>(logbook.error()));
            const Result<void> written = contents
                                             ? writeLogbookJson(*contents, to)
                                             : Result<void>(Unexpected<Error>(contents.error()));
            return written ? tr("Written: %1").arg(toQString(to.string()))
                           : complaint(written.error());
        },
        false);
}

void LogbookModel::exportCsv(const std::filesystem::path& folder) {
    tellOf(
        [folder](LogbookReader& reader) {
            const Result<Logbook*> logbook = reader.logbook();
            const Result<LogbookContents> contents =
                logbook ? (*logbook)->contents()
                        : Result<LogbookContents>(Unexpected<Error>(logbook.error()));
            const Result<void> written = contents
                                             ? writeLogbookCsv(*contents, folder)
                                             : Result<void>(Unexpected<Error>(contents.error()));
            return written ? tr("Written: a table a file in %1").arg(toQString(folder.string()))
                           : complaint(written.error());
        },
        false);
}

void LogbookModel::importFrom(const std::filesystem::path& from) {
    tellOf(
        [from](LogbookReader& reader) {
            const Result<LogbookContents> contents = readLogbookExport(from);
            if (!contents) {
                return complaint(contents.error());
            }
            const Result<Logbook*> logbook = reader.toWrite();
            if (!logbook) {
                return complaint(logbook.error());
            }
            const Result<MergeReport> report = (*logbook)->merge(*contents);
            return report ? tr("%1 rows taken over: %2 sessions new, %3 there already")
                                .arg(report->rows)
                                .arg(report->sessions)
                                .arg(report->sessionsThere)
                          : complaint(report.error());
        },
        true);
}

void LogbookModel::backUp(const std::filesystem::path& to) {
    tellOf(
        [to](LogbookReader& reader) {
            const Result<Logbook*> logbook = reader.logbook();
            const Result<void> copied =
                logbook ? (*logbook)->backUp(to) : Result<void>(Unexpected<Error>(logbook.error()));
            return copied ? tr("Copied to %1").arg(toQString(to.string()))
                          : complaint(copied.error());
        },
        false);
}

void LogbookModel::verify() {
    tellOf(
        [](LogbookReader& reader) {
            const Result<Logbook*> logbook = reader.logbook();
            if (!logbook) {
                return complaint(logbook.error());
            }
            const std::vector<std::string> damages = (*logbook)->inspect();
            return damages.empty() ? tr("Every row is as it was kept.")
                                   : tr("Damaged: %1 (%2 complaints in all)")
                                         .arg(coreText(damages.front()))
                                         .arg(damages.size());
        },
        false);
}

void LogbookModel::restore(const std::filesystem::path& backup) {
    if (!reader_) {
        return;
    }
    Q_EMIT restoring();
    work_.begin([this, reader = reader_, backup] {
        reader->letGo();
        const Result<std::filesystem::path> aside =
            restoreLogbook(reader->file(), backup, instantNow());
        const QString text = !aside ? complaint(aside.error())
                             : aside->empty()
                                 ? tr("The backup is in place.")
                                 : tr("The backup is in place; what was there is now %1")
                                       .arg(toQString(aside->string()));
        return [this, text] {
            Q_EMIT restored();
            Q_EMIT told(text);
            opened_.reset();
            refresh();
        };
    });
}

void LogbookModel::withContents(std::function<void(std::shared_ptr<const LogbookContents>)> take) {
    if (!reader_) {
        take(nullptr);
        return;
    }
    work_.begin([reader = reader_, take = std::move(take)] {
        static_cast<void>(reader->read());
        return [take, contents = reader->contents()] { take(contents); };
    });
}

void LogbookModel::withNewStrings(const Instrument& instrument,
                                  bool virtualStrings,
                                  std::function<void(std::vector<NewString>)> take) {
    if (!reader_) {
        return;
    }
    work_.begin([reader = reader_, instrument, virtualStrings, take = std::move(take)] {
        static_cast<void>(reader->read());
        return [take, strings = reader->newStrings(instrument, virtualStrings)] { take(strings); };
    });
}

} // namespace quillbench
