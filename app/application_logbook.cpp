#include "app/application.hpp"
#include "app/text/core_text.hpp"
#include "app/text/format.hpp"
#include "app/views/tune_page.hpp"

#include <QDir>

namespace quillbench {

/// How replaced strings of the instrument that is looked at have settled, by the logbook.
void Application::readNewStrings() {
    if (window_.place() != Place::Instrument) {
        return;
    }
    const std::string id = instrument_.instrument().id;
    journal_.settle();
    logbook_.withNewStrings(instrument_.instrument(),
                            journal_.sound().virtualInstrument,
                            [this, id](std::vector<NewString> strings) {
                                if (id == instrument_.instrument().id) {
                                    instrument_.setNewStrings(std::move(strings));
                                }
                            });
}

/// Where the strings of the instrument that is tuned were left, by the logbook.
void Application::readLeft() {
    const std::string id = tuning_.instrument().id;
    logbook_.withContents([this, id](const std::shared_ptr<const LogbookContents>& contents) {
        if (id == tuning_.instrument().id) {
            temperament_.setLeft(
                contents
                    ? historyOf(*contents, tuning_.instrument(), journal_.sound().virtualInstrument)
                    : StringHistory());
        }
    });
}

/// A first look tells minutes at this player's speed, which the logbook has.
void Application::readLeftForLook() {
    const TuningChoice& choice = tuning_.choice();
    const bool looks = choice.extent == Extent::Whole && choice.parts.firstLook;
    if (looks && !journal_.file().empty()) {
        readLeft();
    }
}

void Application::connectLogbook() {
    connect(&logbook_, &LogbookModel::restoring, this, [this] {
        recheck_.end();
        journal_.close();
    });
    connect(&logbook_, &LogbookModel::restored, this, [this] {
        if (const Result<void> opened = journal_.open(logbook_.file()); !opened) {
            goOnFrom(errorText(opened.error()));
        }
        // The session at hand is not in that file; the same choice was accepted before.
        static_cast<void>(tuning_.chooseAgain());
    });
}

Result<std::filesystem::path> Application::logbookFile() const {
    return options_.settingsFolder.isEmpty()
               ? logbookPlace()
               : Result<std::filesystem::path>(QDir(options_.settingsFolder)
                                                   .filePath(QStringLiteral("logbook.sqlite"))
                                                   .toStdString());
}

void Application::openLogbook() {
    tellJournal(0.0, {});
    const Result<std::filesystem::path> file = logbookFile();
    if (file) {
        logbook_.setFile(*file);
        journal_.openInBackground(*file);
    } else {
        goOnFrom(errorText(file.error()));
    }
}

void Application::goOnFrom(const QString& trouble) {
    if (trouble.isEmpty()) {
        journal_.takeUp();
    } else {
        window_.tunePage().tell(tr("Nothing is kept in the logbook: %1").arg(trouble));
    }
}

void Application::writeRecheck() {
    if (!recheck_.fit() || !recheck_.advice()) {
        return;
    }
    const auto names = [this](const ShortList& list) {
        QStringList strings;
        for (const ShortListed& one : list.strings) {
            strings << toQString(toAscii(keyNote(recheck_.instrument(), one.string)));
        }
        return strings;
    };
    const ShortList& here = recheck_.advice()->here;
    const ShortList& moved = recheck_.advice()->moved ? *recheck_.advice()->moved : here;
    log_.writeRecheck(recheck_.recheck().heard().size(),
                      recheck_.fit()->whole.value,
                      names(here),
                      names(moved),
                      moved.shift.value());
}

void Application::tellJournal(double rateHz, const ClockCalibration& clock) {
    journal_.setSound({sourceName(), source_.kind == SourceKind::Virtual, rateHz, clock});
}

} // namespace quillbench
