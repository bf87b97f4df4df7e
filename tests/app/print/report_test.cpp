#include "app/places/instrument/instrument_model.hpp"
#include "app/places/instrument/string_report.hpp"
#include "app/places/logbook/tuning_report.hpp"
#include "app/print/pages.hpp"
#include "app/print/report.hpp"

#include <catch2/catch.hpp>

#include <QDir>
#include <QFile>
#include <QRegularExpression>
#include <QTemporaryDir>
#include <QTextBlock>
#include <QTextDocument>

using namespace quillbench;

namespace {

QByteArray contentsOf(const QString& file) {
    QFile in(file);
    REQUIRE(in.open(QIODevice::ReadOnly));
    return in.readAll();
}

/// How many pages a PDF has ([ISO32000-1], 7.7.3: each is a dictionary of /Type /Page).
qsizetype pagesIn(const QByteArray& pdf) {
    static const QRegularExpression kPage(QStringLiteral("/Type\\s*/Page[^s]"));
    return QString::fromLatin1(pdf).count(kPage);
}

Printout printoutOf(const Report& report) {
    return {report.title, QPageSize::A4, [&report](QPagedPaintDevice& device) {
                return paintReport(report, device);
            }};
}

} // namespace

TEST_CASE("what people wrote stands on paper as they wrote it", "[ui]") {
    Report report;
    report.title = QStringLiteral("Spinet <b>upstairs</b> & \"more\"");
    report.tables.push_back(
        {QString(), {QStringLiteral("Remarks")}, {{QStringLiteral("a < b")}}, {}});
    const QString html = reportHtml(report);
    CHECK_FALSE(html.contains(QStringLiteral("<b>upstairs")));
    CHECK(html.contains(QStringLiteral("&lt;b&gt;upstairs&lt;/b&gt; &amp; ")));
    CHECK(html.contains(QStringLiteral("a &lt; b")));
}

TEST_CASE("figures and what shall stay together are never broken over two lines", "[ui]") {
    Report report;
    report.title = QStringLiteral("Invented");
    const QString wire = QStringLiteral("soft") + QChar::Nbsp + QStringLiteral("iron*");
    report.tables.push_back(
        {QString(),
         {QStringLiteral("Wire"), QStringLiteral("N"), QStringLiteral("Remarks")},
         {{wire, QStringLiteral("+0.8 to +3.2"), QStringLiteral("a word or two")}},
         {1}});
    QTextDocument document;
    document.setHtml(reportHtml(report));
    int whole = 0;
    for (QTextBlock block = document.begin(); block.isValid(); block = block.next()) {
        if (block.text().contains(QChar::Nbsp)) {
            CHECK(block.blockFormat().nonBreakableLines());
            ++whole;
        } else if (block.text().contains(QStringLiteral("a word"))) {
            CHECK_FALSE(block.blockFormat().nonBreakableLines());
        }
    }
    CHECK(whole == 2);
}

TEST_CASE("a PDF file is offered in a folder that is there", "[ui]") {
    const QTemporaryDir folder;
    CHECK(folderForPdf(folder.path()) == folder.path());
    CHECK(folderForPdf(folder.filePath(QStringLiteral("Documents"))) == QDir::homePath());
}

TEST_CASE("a long report goes on from page to page, as vectors", "[ui]") {
    const QTemporaryDir folder;
    Report report;
    report.title = QStringLiteral("Invented");
    ReportTable table;
    table.columns = {QStringLiteral("Key"), QStringLiteral("Cents")};
    table.numbers = {1};
    for (int row = 0; row < 12; ++row) {
        table.rows.push_back({QStringLiteral("A3"), QStringLiteral("+0.1")});
    }
    report.tables = {table};
    const QString file = folder.filePath(QStringLiteral("short.pdf"));
    REQUIRE(writePdf(file, printoutOf(report)));
    CHECK(pagesIn(contentsOf(file)) == 1);
    for (int more = 0; more < 200; ++more) {
        report.tables[0].rows.push_back({QStringLiteral("A3"), QStringLiteral("+0.1")});
    }
    const QString longer = folder.filePath(QStringLiteral("long.pdf"));
    REQUIRE(writePdf(longer, printoutOf(report)));
    const QByteArray pdf = contentsOf(longer);
    CHECK(pdf.startsWith("%PDF-"));
    CHECK(pagesIn(pdf) >= 3);
    CHECK(pagesIn(pdf) <= 6);
    CHECK_FALSE(pdf.contains("/Subtype /Image"));
    CHECK_FALSE(writePdf(QStringLiteral("/nowhere/report.pdf"), printoutOf(report)));
}

TEST_CASE("the string list tells every string of every choir", "[ui]") {
    const TuningModel tuning;
    const InstrumentModel model(tuning);
    const Report report = stringReport(model);
    REQUIRE(report.tables.size() == model.instrument().choirs.size());
    for (std::size_t choir = 0; choir < report.tables.size(); ++choir) {
        const ReportTable& table = report.tables[choir];
        CHECK(table.rows.size() == model.instrument().choirs[choir].strings.size());
        for (const QStringList& row : table.rows) {
            CHECK(row.size() == table.columns.size());
            CHECK_FALSE(row.contains(QString()));
        }
    }
    CHECK_FALSE(report.notes.isEmpty());
}

TEST_CASE("the tuning report tells before, after, how, and since where it was rechecked", "[ui]") {
    OpenedSession opened;
    opened.title = QStringLiteral("2026-05-01, first octave");
    ReadingLine line;
    line.key = QStringLiteral("A3");
    line.before = QStringLiteral("-12.5");
    line.after = QStringLiteral("+0.1");
    line.how = QStringLiteral("by ear");
    line.since = QStringLiteral("-1.4");
    opened.readings = {line};
    opened.diary = {{QStringLiteral("2026-05-02"), {}, {}, QStringLiteral("pin loose")}};
    Report report = tuningReport({}, opened);
    REQUIRE(report.tables.size() == 2);
    CHECK(report.tables[0].rows[0].size() == report.tables[0].columns.size());
    CHECK(report.tables[0].rows[0].contains(line.before));
    CHECK(report.tables[0].rows[0].contains(onOneLine(line.how)));
    CHECK_FALSE(report.tables[0].rows[0].contains(line.since));
    opened.rechecked = QStringLiteral("2026-05-20");
    report = tuningReport({}, opened);
    CHECK(report.tables[0].rows[0].contains(line.since));
    CHECK(report.tables[0].rows[0].size() == report.tables[0].columns.size());
    CHECK(report.tables[1].rows[0].contains(QStringLiteral("pin loose")));
}
