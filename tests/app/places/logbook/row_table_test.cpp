#include "app/places/logbook/row_table.hpp"

#include <catch2/catch.hpp>

#include <QApplication>
#include <QFontMetrics>
#include <QImage>
#include <QScrollBar>

using namespace quillbench;

namespace {

const QStringList kTwo{QStringLiteral("At"), QStringLiteral("Words")};

struct ShownTable {
    RowTable table{QStringLiteral("t"), QStringLiteral("T"), kTwo};

    explicit ShownTable(const std::vector<QStringList>& rows, QSize size = {300, 400}) {
        table.resize(size);
        table.show();
        table.setRows(rows);
        QApplication::processEvents();
    }

    [[nodiscard]] int line() const { return table.fontMetrics().lineSpacing(); }

    /// Lines on which something of a row's words is painted.
    [[nodiscard]] int linesPainted(int row) const {
        const QRect cell = table.visualRect(table.model()->index(row, 1));
        const QImage seen = table.viewport()->grab(cell).toImage();
        int lines = 0;
        bool before = false;
        for (int y = 0; y < seen.height(); ++y) {
            bool ink = false;
            for (int x = 0; x < seen.width(); ++x) {
                ink = ink || qGray(seen.pixel(x, y)) < 128;
            }
            lines += ink && !before ? 1 : 0;
            before = ink;
        }
        return lines;
    }
};

const QString kLongWord(60, QLatin1Char('H'));

int linesOf(const QString& text, const RowTable& table) {
    return table.fontMetrics().horizontalAdvance(text) / table.columnWidth(1) + 1;
}

} // namespace

TEST_CASE("a table that is too wide for its place shortens its longest texts", "[ui]") {
    RowTable table(
        QStringLiteral("t"), QStringLiteral("T"), {QStringLiteral("a"), QStringLiteral("b")});
    table.resize(300, 200);
    table.show();
    const QString longest(90, QLatin1Char('m'));
    table.setRows({{QStringLiteral("short"), longest}});
    QApplication::processEvents();
    CHECK(table.horizontalScrollBar()->maximum() == 0);
    CHECK(table.columnWidth(1) < table.width());
    // Words that find no place beside each other stand below each other.
    table.setRows(
        {{QStringLiteral("short"), QStringLiteral("false beat, pin loose ").repeated(4)}});
    QApplication::processEvents();
    CHECK(table.visualItemRect(table.topLevelItem(0)).height() >
          2 * table.fontMetrics().lineSpacing());
}

TEST_CASE("words beside figures stand apart from them", "[ui]") {
    const QString name = QStringLiteral("t");
    const QStringList captions{name, QStringLiteral("Pitch"), QStringLiteral("b"), name};
    RowTable plain(name, name, captions);
    RowTable apart(name, name, captions);
    apart.setNumbers({1});
    for (RowTable* table : {&plain, &apart}) {
        table->resize(600, 200);
        table->show();
        table->setRows(
            {{QStringLiteral("8"), QStringLiteral("124.26"), QStringLiteral("1 \u00d7")}});
        QApplication::processEvents();
    }
    CHECK(apart.columnWidth(2) >= plain.columnWidth(2) + 4);
    CHECK(apart.columnWidth(1) == plain.columnWidth(1));
    CHECK(apart.headerItem()->text(2).trimmed() == QStringLiteral("b"));
}

TEST_CASE("from right to left figures and dates keep their order", "[ui]") {
    constexpr QChar kLeftToRightMark(0x200e);
    RowTable table(
        QStringLiteral("t"), QStringLiteral("T"), {QStringLiteral("a"), QStringLiteral("b")});
    table.setLayoutDirection(Qt::RightToLeft);
    REQUIRE(table.isRightToLeft());
    const QString hebrew = QStringLiteral("\u05e9\u05dc\u05d5\u05dd");
    table.setRows({{QStringLiteral("2026-11-27 12:50"), hebrew}});
    CHECK(table.topLevelItem(0)->text(0) == kLeftToRightMark + QStringLiteral("2026-11-27 12:50"));
    CHECK(table.topLevelItem(0)->text(1) == hebrew);
}

TEST_CASE("a word that is longer than its column is broken, not cut", "[ui]") {
    const ShownTable shown({{QStringLiteral("short"), kLongWord}});
    REQUIRE(linesOf(kLongWord, shown.table) > 2);
    CHECK(shown.linesPainted(0) >= linesOf(kLongWord, shown.table));
    CHECK(shown.table.horizontalScrollBar()->maximum() == 0);
}

TEST_CASE("words stand below each other in a list of any length", "[ui]") {
    std::vector<QStringList> rows(2000, {QStringLiteral("short"), QStringLiteral("few words")});
    rows.back().back() = QStringLiteral("HH ").repeated(40).trimmed();
    ShownTable shown(rows);
    shown.table.setCurrentItem(shown.table.topLevelItem(1999));
    shown.table.scrollToBottom();
    QApplication::processEvents();
    REQUIRE(linesOf(rows.back().back(), shown.table) > 2);
    CHECK(shown.table.visualItemRect(shown.table.topLevelItem(1999)).bottom() <
          shown.table.viewport()->height());
    CHECK(shown.table.visualItemRect(shown.table.topLevelItem(1998)).height() < 2 * shown.line());
    shown.table.setCurrentItem(shown.table.topLevelItem(0));
    shown.table.scrollToBottom();
    QApplication::processEvents();
    CHECK(shown.linesPainted(1999) >= linesOf(rows.back().back(), shown.table));
}

TEST_CASE("a long remark is read whole in its table", "[ui]") {
    const QString remark = QStringLiteral("HH ").repeated(160).trimmed();
    const ShownTable shown({{QStringLiteral("short"), remark}});
    REQUIRE(linesOf(remark, shown.table) > 5);
    CHECK(shown.linesPainted(0) >= linesOf(remark, shown.table));
}

TEST_CASE("a text longer than its table is shortened at the last line there is room for", "[ui]") {
    const ShownTable shown({{QStringLiteral("short"), QStringLiteral("HH ").repeated(2000)}});
    CHECK(shown.table.visualItemRect(shown.table.topLevelItem(0)).height() <=
          shown.table.viewport()->height());
}

TEST_CASE("columns do not break a figure while a longer text can give way", "[ui]") {
    RowTable table(QStringLiteral("t"),
                   QStringLiteral("T"),
                   {QStringLiteral("a"), QStringLiteral("b"), QStringLiteral("c")});
    table.resize(400, 200);
    table.show();
    const QString figure = QStringLiteral("\u2212123.4\u00a0\u00b1\u00a00.1");
    table.setRows({{QStringLiteral("1"), figure, QStringLiteral("many words ").repeated(20)}});
    QApplication::processEvents();
    CHECK(table.columnWidth(1) > table.fontMetrics().horizontalAdvance(figure));
}
