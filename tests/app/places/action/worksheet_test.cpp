#include "app/places/action/practice_faults.hpp"
#include "app/places/action/worksheet.hpp"
#include "app/places/action/worksheet_store.hpp"
#include "core/instrument/examples.hpp"

#include <catch2/catch.hpp>

#include <QDir>
#include <QFile>
#include <QFileInfo>
#include <QTemporaryDir>
#include <algorithm>
#include <set>

using namespace quillbench;

namespace {

ActionJob jobOf(const QString& id) {
    ActionJob job;
    job.id = id;
    job.what = QStringLiteral("A3: weak by 6 dB. ") + QString(200, QLatin1Char('x'));
    return job;
}

} // namespace

TEST_CASE("a finding that goes away leaves the sheet unless something was noted", "[ui][action]") {
    Worksheet sheet;
    sheet.renew(QStringLiteral("voice-"),
                {jobOf(QStringLiteral("voice-1")), jobOf(QStringLiteral("voice-2"))});
    sheet.renew(QStringLiteral("damper-"), {jobOf(QStringLiteral("damper-1"))});
    REQUIRE(sheet.lines().size() == 3);
    for (std::size_t i = 0; i < 3; ++i) {
        if (sheet.lines()[i].job.id == QStringLiteral("voice-2")) {
            sheet.setRemark(i, QStringLiteral("felt"));
        }
    }
    sheet.renew(QStringLiteral("voice-"), {});
    std::set<QString> ids;
    for (const WorksheetLine& line : sheet.lines()) {
        ids.insert(line.job.id);
    }
    CHECK(ids == std::set<QString>{QStringLiteral("damper-1"), QStringLiteral("voice-2")});
}

TEST_CASE("the worksheet prints on one page, however long it is", "[ui][action]") {
    const QTemporaryDir folder;
    const QString file = folder.filePath(QStringLiteral("sheet.pdf"));
    std::vector<WorksheetLine> lines;
    lines.reserve(60);
    for (int i = 0; i < 60; ++i) {
        lines.push_back({jobOf(QString::number(i)), i % 2 == 0, QStringLiteral("remark")});
    }
    REQUIRE(writePdf(
        file, worksheetPrintout({QStringLiteral("Two-manual"), {}, QDate(2026, 5, 1)}, lines)));
    QFile pdf(file);
    REQUIRE(pdf.open(QIODevice::ReadOnly));
    const QByteArray bytes = pdf.readAll();
    // Source: ISO 32000-1, 7.7.3: every page is an object of /Type /Page (value from memory).
    CHECK(bytes.startsWith("%PDF-"));
    CHECK(bytes.count("/Type /Page\n") + bytes.count("/Type /Page ") == 1);
}

TEST_CASE("a sheet that cannot be written says where", "[ui][action]") {
    const Result<void> printed = writePdf(QStringLiteral("/nowhere/sheet.pdf"),
                                          worksheetPrintout({}, {{jobOf({}), false, {}, false}}));
    REQUIRE_FALSE(printed);
    CHECK(printed.error().text.find("/nowhere/sheet.pdf") != std::string::npos);
}

TEST_CASE("no string of the virtual instrument is given two faults", "[ui][action]") {
    for (const Instrument& instrument : exampleInstruments()) {
        const auto faults = faultsToFind(instrument, 5);
        CHECK(faults.size() >= 3);
        std::set<std::size_t> courses;
        for (const StringFault& fault : faults) {
            CHECK(courses.insert(fault.string.course).second);
        }
    }
}

TEST_CASE("a worksheet is there again the next day, done and open, until what is done is removed",
          "[ui][action]") {
    const QTemporaryDir folder;
    const QString instrument = QStringLiteral("../spinet (invented)");
    Worksheet sheet;
    sheet.renew(QStringLiteral("voice-"),
                {jobOf(QStringLiteral("voice-1")), jobOf(QStringLiteral("voice-2"))});
    sheet.setDone(0, true);
    sheet.setRemark(1, QStringLiteral("Ä, „felt“"));
    WorksheetStore store(folder.filePath(QStringLiteral("worksheets")));
    CHECK(store.read(instrument)->empty());
    REQUIRE(store.keep(instrument, sheet.lines()));
    // The name of an instrument leads out of no folder.
    CHECK(QFileInfo(store.fileOf(instrument)).absolutePath() ==
          QDir(folder.filePath(QStringLiteral("worksheets"))).absolutePath());

    Worksheet nextDay;
    nextDay.takeUp(*WorksheetStore(folder.filePath(QStringLiteral("worksheets"))).read(instrument));
    REQUIRE(nextDay.lines().size() == 2);
    CHECK(nextDay.lines()[0].done);
    CHECK(nextDay.lines()[1].remark == QStringLiteral("Ä, „felt“"));
    CHECK(nextDay.lines()[1].job == sheet.lines()[1].job);
    nextDay.renew(QStringLiteral("voice-"), {}); // nothing was played yet
    CHECK(nextDay.lines().size() == 2);
    nextDay.renew(QStringLiteral("voice-"), {jobOf(QStringLiteral("voice-2"))});
    CHECK(nextDay.lines().size() == 2);
    nextDay.removeDone();
    REQUIRE(nextDay.lines().size() == 1);
    CHECK(nextDay.lines()[0].job.id == QStringLiteral("voice-2"));
    CHECK_FALSE(nextDay.lines()[0].earlier);
}

TEST_CASE("a worksheet that cannot be read is left as it is", "[ui][action]") {
    const QTemporaryDir folder;
    WorksheetStore store(folder.path());
    const QString instrument = QStringLiteral("virginal");
    for (const QByteArray& text : {QByteArray("{\"schema\":1,"),
                                   QByteArray("[]"),
                                   QByteArray("{\"schema\":2,\"kind\":\"worksheet\"}")}) {
        QFile file(store.fileOf(instrument));
        REQUIRE(file.open(QIODevice::WriteOnly | QIODevice::Truncate));
        file.write(text);
        file.close();
        const auto read = store.read(instrument);
        REQUIRE_FALSE(read);
        CHECK(read.error().text.find("virginal") != std::string::npos);
        CHECK(store.keep(instrument, {{jobOf({}), false, {}, false}}));
        REQUIRE(file.open(QIODevice::ReadOnly));
        CHECK(file.readAll() == text);
        file.close();
    }
    CHECK_FALSE(WorksheetStore(QStringLiteral("/proc/nowhere")).keep(instrument, {}));
}
