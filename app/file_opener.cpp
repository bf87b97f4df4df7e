#include "app/file_opener.hpp"

#include "app/formats/file_kind.hpp"
#include "app/places/instrument/instrument_model.hpp"
#include "app/places/logbook/logbook_model.hpp"
#include "app/places/temperament/temperament_model.hpp"
#include "app/text/core_text.hpp"
#include "app/text/format.hpp"
#include "app/views/main_window.hpp"

#include <QFileInfo>
#include <QMessageBox>
#include <QPushButton>
#include <optional>
#include <set>

namespace quillbench {

/// Files that came together.
class FileOpener::Round {
public:
    explicit Round(FileOpener& opener) : to_(opener) {}

    void take(const QString& file) {
        const Result<FileKind> kind = fileKind(file.toStdString());
        if (!kind) {
            say(kind.error());
            return;
        }
        // A string list is laid into whatever instrument is at hand.
        const bool several = *kind == FileKind::StringList || *kind == FileKind::LogbookFile;
        if (!several && !taken_.insert(*kind).second) {
            lines_ << FileOpener::tr("One of a kind at a time. Not opened: %1").arg(nameOf(file));
            return;
        }
        switch (*kind) {
        case FileKind::Other:
            listen(file);
            break;
        case FileKind::Instrument:
            instrument(file);
            break;
        case FileKind::StringList:
            strings(file);
            break;
        case FileKind::Temperament:
            temperament(file);
            break;
        case FileKind::LogbookExport:
            ask(file);
            break;
        case FileKind::LogbookFile:
            lines_ << FileOpener::tr(
                          "%1 is a logbook. File in the place Logbook restores it as a backup.")
                          .arg(nameOf(file));
            break;
        }
    }

    /// Shows the place of the first, and gives what is to be said.
    [[nodiscard]] QString end() {
        if (place_) {
            to_.window_.goToPlace(*place_);
        }
        return lines_.join(QLatin1Char('\n'));
    }

private:
    static QString nameOf(const QString& file) {
        const QString name = QFileInfo(file).fileName();
        return name.isEmpty() ? file : name;
    }

    void say(const Error& error) { lines_ << errorText(error); }

    void show(Place place) { place_ = place_.value_or(place); }

    void listen(const QString& file) {
        if (const Result<void> listening = to_.listen_(file); !listening) {
            say(listening.error());
            return;
        }
        lines_ << FileOpener::tr("Listening to %1").arg(nameOf(file));
        show(Place::Tune);
    }

    /// What was changed by hand is not lost to a file that comes by.
    bool instrumentIsFree(const QString& file) {
        if (to_.instrument_.unsaved()) {
            lines_ << FileOpener::tr(
                          "%1 has changes that are not saved. Save it, then open %2 again.")
                          .arg(toQString(to_.instrument_.instrument().name), nameOf(file));
        }
        return !to_.instrument_.unsaved();
    }

    void instrument(const QString& file) {
        if (!instrumentIsFree(file)) {
            show(Place::Instrument);
            return;
        }
        if (const Result<void> chosen = to_.instrument_.choose(file); !chosen) {
            say(chosen.error());
            return;
        }
        lines_ << FileOpener::tr("Instrument opened: %1")
                      .arg(toQString(to_.instrument_.instrument().name));
        show(Place::Instrument);
    }

    void strings(const QString& file) {
        const Result<QString> read = to_.instrument_.importStrings(file);
        if (!read) {
            say(read.error());
            return;
        }
        lines_ << *read;
        show(Place::Instrument);
    }

    void temperament(const QString& file) {
        if (const Result<void> chosen = to_.temperament_.choose(file); !chosen) {
            say(chosen.error());
            return;
        }
        lines_ << FileOpener::tr("Temperament opened: %1")
                      .arg(toQString(to_.temperament_.temperament().description().name));
        show(Place::Temperament);
    }

    /// What is taken over into the logbook stays there.
    void ask(const QString& file) {
        auto* box = new QMessageBox(
            QMessageBox::Question,
            FileOpener::tr("Take over an export"),
            FileOpener::tr("Take over %1 into the logbook? Nothing comes twice, and what was taken "
                           "over stays.")
                .arg(nameOf(file)),
            QMessageBox::Cancel,
            &to_.window_);
        box->setObjectName(QStringLiteral("takeOver"));
        box->setAttribute(Qt::WA_DeleteOnClose);
        box->setTextFormat(Qt::PlainText);
        const QPushButton* take =
            box->addButton(FileOpener::tr("&Take over"), QMessageBox::AcceptRole);
        connect(take, &QPushButton::clicked, &to_, [&opener = to_, file] {
            opener.window_.goToPlace(Place::Logbook);
            opener.logbook_.importFrom(file.toStdString());
        });
        box->open();
    }

    FileOpener& to_;
    QStringList lines_;
    std::set<FileKind> taken_;
    std::optional<Place> place_;
};

FileOpener::FileOpener(MainWindow& window,
                       InstrumentModel& instrument,
                       TemperamentModel& temperament,
                       LogbookModel& logbook,
                       Listen listen)
    : window_(window),
      instrument_(instrument),
      temperament_(temperament),
      logbook_(logbook),
      listen_(std::move(listen)) {
}

void FileOpener::open(const QStringList& files) {
    Round round(*this);
    for (const QString& file : files) {
        round.take(file);
    }
    if (const QString text = round.end(); !text.isEmpty()) {
        Q_EMIT told(text);
    }
}

} // namespace quillbench
