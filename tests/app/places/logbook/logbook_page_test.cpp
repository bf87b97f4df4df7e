#include "app/places/logbook/logbook_model.hpp"
#include "app/places/logbook/logbook_page.hpp"
#include "app/places/logbook/logbook_text.hpp"
#include "app/places/logbook/row_table.hpp"
#include "tests/app/places/logbook/kept_sessions.hpp"

#include <QApplication>
#include <QComboBox>
#include <QLabel>
#include <QLayout>
#include <QLineEdit>
#include <QPushButton>
#include <QScrollBar>
#include <QTextDocument>

using namespace quillbench;
using namespace quillbench::test;

namespace {

struct Shown {
    Shown() {
        keepTwoSessions(logbookIn(folder));
        model.setFile(logbookIn(folder));
        page.show();
        model.finish();
    }

    template <typename Widget>
    [[nodiscard]] Widget& find(const char* name) {
        auto* found = page.findChild<Widget*>(QString::fromLatin1(name));
        INFO(name);
        REQUIRE(found != nullptr);
        return *found;
    }

    QTemporaryDir folder;
    LogbookModel model;
    LogbookPage page{model};
};

} // namespace

TEST_CASE("going down the list opens the session there", "[ui]") {
    Shown shown;
    auto& sessions = shown.find<RowTable>("sessions");
    REQUIRE(sessions.topLevelItemCount() == 2);
    CHECK(sessions.currentRow() == 0);
    sessions.setCurrentItem(sessions.topLevelItem(1));
    shown.model.finish();
    REQUIRE(shown.model.opened());
    CHECK(shown.model.opened()->session == 1);
    CHECK(sessions.currentRow() == 1);
    CHECK(shown.find<RowTable>("readings").topLevelItemCount() == 1);
}

TEST_CASE("that another string was asked for is no remark about one that was kept", "[ui]") {
    HoldingReading one;
    one.reading.note = "A3";
    one.reading.warnings = "not the string asked, noisy";
    CHECK(readingLine(one).remarks == QStringLiteral("noisy"));
    one.reading.warnings = "not the string asked";
    CHECK(readingLine(one).remarks.isEmpty());
}

TEST_CASE("a logbook without sessions says what will stand there", "[ui]") {
    const QTemporaryDir folder;
    REQUIRE(Logbook::open({logbookIn(folder), true, {}}));
    LogbookModel model;
    model.setFile(logbookIn(folder));
    LogbookPage page(model);
    page.show();
    model.finish();
    const auto* words = page.findChild<QLabel*>(QStringLiteral("logbookFile"));
    REQUIRE(words != nullptr);
    CHECK(words->text().contains(QStringLiteral("no session yet")));
    Shown full;
    CHECK_FALSE(full.find<QLabel>("logbookFile").text().contains(QStringLiteral("no session")));
}

TEST_CASE("a remark is written down with the keyboard alone", "[ui]") {
    Shown shown;
    auto& remark = shown.find<QComboBox>("entryRemark");
    remark.setEditText(QStringLiteral("buzzes on the bridge"));
    Q_EMIT remark.lineEdit()->returnPressed();
    shown.model.finish();
    auto& diary = shown.find<RowTable>("diary");
    REQUIRE(diary.topLevelItemCount() == 1);
    CHECK(diary.topLevelItem(0)->text(3) == QStringLiteral("buzzes on the bridge"));
    CHECK(remark.currentText().isEmpty());
}

TEST_CASE("markup in a remark is shown as it was written", "[ui]") {
    Shown shown;
    const QString written = QStringLiteral("<b>loose</b> <img src='x'>");
    auto& remark = shown.find<QComboBox>("entryRemark");
    remark.setEditText(written);
    Q_EMIT remark.lineEdit()->returnPressed();
    shown.model.finish();
    const QTreeWidgetItem* row = shown.find<RowTable>("diary").topLevelItem(0);
    REQUIRE(row != nullptr);
    CHECK(row->text(3) == written);
    QTextDocument tip;
    tip.setHtml(row->toolTip(3));
    CHECK(tip.toPlainText() == written);
    for (const QLabel* label : shown.page.findChildren<QLabel*>()) {
        INFO(label->objectName().toStdString());
        CHECK((label->textFormat() == Qt::PlainText || label->buddy() != nullptr));
    }
}

TEST_CASE("a new string names a string: choir and key", "[ui]") {
    Shown shown;
    auto& kind = shown.find<QComboBox>("entryKind");
    kind.setCurrentIndex(2);
    CHECK(shown.find<QComboBox>("entryChoir").currentIndex() > 0);
    CHECK(shown.find<QComboBox>("entryKey").count() == 61);
    shown.find<QPushButton>("writeDown").click();
    shown.model.finish();
    CHECK(shown.find<RowTable>("diary").topLevelItemCount() == 1);
}

TEST_CASE("every control of the logbook has a name, and it fits on a small screen", "[ui]") {
    Shown shown;
    for (const char* name : {"sessions", "readings", "diary", "tendencies", "entry"}) {
        CHECK_FALSE(shown.find<QWidget>(name).accessibleName().isEmpty());
    }
    for (const QComboBox* box : shown.page.findChildren<QComboBox*>()) {
        CHECK_FALSE(box->accessibleName().isEmpty());
    }
    CHECK(shown.page.minimumSizeHint().width() <= 560);
    CHECK(shown.page.layout()->minimumSize().width() <= 560);
    CHECK(shown.page.layout()->minimumSize().height() <= 360);
}
