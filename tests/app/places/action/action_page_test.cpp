#include "app/models/live_model.hpp"
#include "app/places/action/action_map_view.hpp"
#include "app/places/action/action_page.hpp"
#include "app/places/action/fault_panel.hpp"
#include "tests/app/places/action/action_bench.hpp"

#include <QCoreApplication>
#include <QKeyEvent>
#include <QLabel>
#include <QTableWidget>
#include <QTemporaryDir>
#include <QToolButton>

using namespace quillbench;
using namespace quillbench::test;

namespace {

struct Page {
    ActionBench bench{{{StringFault::Kind::WeakPlectrum, {0, 24}, 0.22}}};
    LiveModel live;
    ActionPage page{bench.tuning, live, bench.player, bench.model};

    Page() {
        page.resize(1100, 780);
        page.show();
    }

    [[nodiscard]] QString textOf(const char* name) const {
        return page.findChild<QLabel*>(QString::fromLatin1(name))->text();
    }
};

} // namespace

TEST_CASE("the page asks for one register, follows the keys and lists the jack to do",
          "[ui][action]") {
    Page at;
    at.bench.draw({0, 1});
    CHECK(at.textOf("actionSentence").contains(QStringLiteral("one register alone")));
    at.bench.draw({0});
    for (int round = 0; round < 2; ++round) {
        for (std::size_t key = 18; key < 31; ++key) {
            at.bench.play(key, 0.75, 0.25);
        }
    }
    at.bench.listen(1.0);
    CHECK(at.textOf("actionSentence").contains(QStringLiteral("13 of 61 keys heard")));
    CHECK(at.textOf("actionWhole").contains(QStringLiteral("register is")));
    const auto* table = at.page.findChild<QTableWidget*>(QStringLiteral("worksheet"));
    REQUIRE(table->rowCount() == 1);
    CHECK(table->item(0, 1)->text().startsWith(QStringLiteral("F3, back 8′: weak by")));
    at.page.findChild<QTableWidget*>(QStringLiteral("worksheet"))->setCurrentCell(0, 1);
    CHECK(at.page.finder().text().contains(QStringLiteral("Measured on F3")));
    CHECK(at.page.finder().text().contains(QStringLiteral("Keep your eyes away")));
    const auto* map = at.page.findChild<ActionMapView*>(QStringLiteral("actionMap"));
    CHECK(map->picture().chosen == 24U);
    CHECK(map->picture().columns[24].standing == ActionStanding::Look);
    CHECK(map->picture().description.contains(QStringLiteral("F3 weak")));
}

TEST_CASE("a job that is done stays on the worksheet with its remark", "[ui][action]") {
    Page at;
    at.bench.draw({0});
    for (int round = 0; round < 2; ++round) {
        for (std::size_t key = 18; key < 31; ++key) {
            at.bench.play(key, 0.75, 0.25);
        }
    }
    at.bench.listen(1.0);
    auto* table = at.page.findChild<QTableWidget*>(QStringLiteral("worksheet"));
    REQUIRE(table->rowCount() == 1);
    table->item(0, 0)->setCheckState(Qt::Checked);
    table->item(0, 2)->setText(QStringLiteral("new plectrum"));
    at.bench.model.beginAgain();
    REQUIRE(at.page.worksheet().lines().size() == 1);
    CHECK(at.page.worksheet().lines()[0].done);
    CHECK(at.page.worksheet().lines()[0].remark == QStringLiteral("new plectrum"));
}

TEST_CASE("keys of the computer choose and play, and everything has a name", "[ui][action]") {
    Page at;
    at.bench.draw({0});
    QKeyEvent right(QEvent::KeyPress, Qt::Key_Right, Qt::NoModifier);
    QCoreApplication::sendEvent(&at.page, &right);
    const auto* map = at.page.findChild<ActionMapView*>(QStringLiteral("actionMap"));
    CHECK(map->picture().chosen.has_value());
    for (const QToolButton* button : at.page.findChildren<QToolButton*>()) {
        INFO(button->text().toStdString());
        CHECK_FALSE(button->text().isEmpty());
    }
    for (const QWidget* widget :
         {static_cast<const QWidget*>(map),
          static_cast<const QWidget*>(at.page.findChild<QTableWidget*>())}) {
        CHECK_FALSE(widget->accessibleName().isEmpty());
    }
}

TEST_CASE("a job of another day at a key that the instrument has no more stays to be read",
          "[ui][action]") {
    Page at;
    const QTemporaryDir folder;
    WorksheetStore store(folder.path());
    ActionJob job;
    job.key = 900;
    job.id = QStringLiteral("voice-900");
    job.what = QStringLiteral("weak");
    REQUIRE(store.keep(at.bench.tuning.choice().instrument, {{job, false, {}, false}}));
    at.page.keepIn(folder.path());
    auto* table = at.page.findChild<QTableWidget*>(QStringLiteral("worksheet"));
    REQUIRE(table->rowCount() == 1);
    table->setCurrentCell(0, 1);
    CHECK(table->item(0, 1)->text() == QStringLiteral("weak"));
    CHECK_FALSE(at.page.findChild<ActionMapView*>(QStringLiteral("actionMap"))->picture().chosen);
}
