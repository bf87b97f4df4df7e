#pragma once

#include "app/models/virtual_player.hpp"
#include "app/places/recheck/recheck_model.hpp"
#include "tests/app/tuning_at_hand.hpp"

#include <QDir>
#include <QTemporaryDir>

namespace quillbench::test {

/// Tune and Recheck at one logbook, as the window has them.
struct RecheckDesk {
    RecheckDesk() {
        const std::filesystem::path file =
            QDir(folder.path()).filePath(QStringLiteral("logbook.sqlite")).toStdString();
        chooseFirstOctave(tuning);
        const auto opened = journal.open(file);
        if (!opened) {
            FAIL(opened.error().text);
        }
        logbook.setFile(file);
    }

    void enter() {
        recheck.enter();
        recheck.finish();
    }

    /// A sure pluck of the string of a key of the choir, so far from what it is compared with.
    void pluck(std::size_t key, double moved) {
        StringReading reading;
        reading.standing = Standing::Ok;
        reading.string = StringId{recheck.choir(), courseOf(recheck.instrument(), key)};
        reading.target = recheck.recheck().references().at(reading.string).pitch;
        reading.deviation = Cents(moved);
        reading.deviationUncertainty = Cents(0.1);
        reading.pitch = reading.fundamental = transpose(reading.target, reading.deviation);
        recheck.hear(reading, Seconds(1));
    }

    [[nodiscard]] LogbookContents contents() {
        journal.settle();
        const auto book = Logbook::open({logbook.file(), false, {}});
        REQUIRE(book);
        return book->contents().value();
    }

    QTemporaryDir folder;
    TuningModel tuning;
    SessionJournal journal{tuning};
    LogbookModel logbook;
    RecheckModel recheck{tuning, journal, logbook};
    VirtualPlayer player{tuning};
    LiveModel live;
};

} // namespace quillbench::test
