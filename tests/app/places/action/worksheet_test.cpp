#include "app/places/action/practice_faults.hpp"
#include "app/places/action/worksheet.hpp"
#include "core/instrument/examples.hpp"

#include <catch2/catch.hpp>

#include <QFile>
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
    REQUIRE(printWorksheet(file, {QStringLiteral("Two-manual"), {}, QDate(2026, 5, 1)}, lines));
    QFile pdf(file);
    REQUIRE(pdf.open(QIODevice::ReadOnly));
    const QByteArray bytes = pdf.readAll();
    // Source: ISO 32000-1, 7.7.3: every page is an object of /Type /Page (value from memory).
    CHECK(bytes.startsWith("%PDF-"));
    CHECK(bytes.count("/Type /Page\n") + bytes.count("/Type /Page ") == 1);
}

TEST_CASE("a sheet that cannot be written says where", "[ui][action]") {
    const Result<void> printed =
        printWorksheet(QStringLiteral("/nowhere/sheet.pdf"), {}, {{jobOf({}), false, {}}});
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
