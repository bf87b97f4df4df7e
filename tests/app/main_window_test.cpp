#include "app/views/choice_bar.hpp"
#include "app/views/main_window.hpp"
#include "app/views/tune_page.hpp"
#include "tests/app/tuning_at_hand.hpp"

#include <QApplication>
#include <QComboBox>
#include <QLabel>
#include <QMenuBar>
#include <QSet>
#include <QToolButton>

using namespace quillbench;
using namespace quillbench::test;

namespace {

struct Window {
    TuningModel tuning;
    LiveModel live;
    VirtualPlayer player{tuning};
    MainWindow window{tuning, live, player};

    Window() { chooseFirstOctave(tuning); }

    [[nodiscard]] QString text(const char* name) const {
        const auto* label = window.findChild<QLabel*>(QString::fromLatin1(name));
        REQUIRE(label != nullptr);
        return label->text();
    }

    [[nodiscard]] QAction* command(const QKeySequence& key) const {
        for (QAction* action : window.findChildren<QAction*>()) {
            if (action->shortcuts().contains(key)) {
                return action;
            }
        }
        FAIL("no command has the key " << key.toString().toStdString());
        return nullptr;
    }
};

} // namespace

TEST_CASE("the window shows the sentence, the note and what is not yet known", "[ui]") {
    const Window bench;
    CHECK(bench.text("sentence").endsWith(QStringLiteral("Play C3.")));
    CHECK(bench.text("note") == QStringLiteral("C3"));
    CHECK(bench.text("deviation").isEmpty());
}

TEST_CASE("at the start keys mean the place, not the first of its choices", "[ui]") {
    Window bench;
    bench.window.show();
    QApplication::setActiveWindow(&bench.window);
    QCoreApplication::processEvents();
    const QWidget* focus = bench.window.focusWidget();
    REQUIRE(focus != nullptr);
    CHECK(qobject_cast<const QComboBox*>(focus) == nullptr);
}

TEST_CASE("a string that settles is said and the next asked for, with no hand on the mouse",
          "[ui]") {
    Window bench;
    settle(bench.tuning, 0);
    CHECK(bench.text("sentence") == QStringLiteral("C3 has settled. Now play C\u266f3."));
}

TEST_CASE("space and page down keep the string, delete skips it, undo takes it back", "[ui]") {
    Window bench;
    bench.tuning.hear(readingOf(bench.tuning, 0, 2.0), Seconds(1));
    bench.command(QKeySequence(Qt::Key_PageDown))->trigger();
    CHECK(bench.tuning.session().progress[0].state == StepState::Kept);
    bench.command(QKeySequence(QKeySequence::Undo))->trigger();
    CHECK(bench.tuning.session().progress[0].state == StepState::Working);
    bench.command(QKeySequence(Qt::Key_Delete))->trigger();
    CHECK(bench.tuning.session().progress[0].state == StepState::Skipped);
}

TEST_CASE("the arrows go from string to string, round the octave", "[ui]") {
    Window bench;
    bench.command(QKeySequence(Qt::Key_Left))->trigger();
    CHECK(bench.tuning.session().current == 12);
    bench.command(QKeySequence(Qt::Key_Right))->trigger();
    CHECK(bench.tuning.session().current == 0);
}

TEST_CASE("every command has a key of its own", "[ui]") {
    const Window bench;
    QSet<QString> taken;
    int commands = 0;
    for (const QMenu* menu : bench.window.menuBar()->findChildren<QMenu*>()) {
        for (const QAction* action : menu->actions()) {
            if (action->isSeparator() || action->menu() != nullptr) {
                continue;
            }
            ++commands;
            INFO(action->text().toStdString());
            CHECK_FALSE(action->shortcuts().isEmpty());
            for (const QKeySequence& key : action->shortcuts()) {
                CHECK_FALSE(taken.contains(key.toString()));
                taken.insert(key.toString());
            }
        }
    }
    CHECK(commands >= 15);
}

TEST_CASE("every control and every painted view has a name for a screen reader", "[ui]") {
    const Window bench;
    for (const char* name : {"wires", "keyboard", "level", "pin", "places"}) {
        const auto* view = bench.window.findChild<QWidget*>(QString::fromLatin1(name));
        INFO(name);
        REQUIRE(view != nullptr);
        CHECK_FALSE(view->accessibleName().isEmpty());
    }
    // A name on a label would hide its text.
    for (const QLabel* label : bench.window.findChildren<QLabel*>()) {
        INFO(label->objectName().toStdString());
        CHECK(label->accessibleName().isEmpty());
    }
    for (const QComboBox* box : bench.window.findChildren<QComboBox*>()) {
        const auto labels = bench.window.findChildren<QLabel*>();
        CHECK(std::any_of(labels.begin(), labels.end(), [box](const QLabel* label) {
            return label->buddy() == box;
        }));
    }
}

TEST_CASE("only places that work are shown", "[ui]") {
    const Window bench;
    const auto* places = bench.window.findChild<QWidget*>(QStringLiteral("places"));
    REQUIRE(places != nullptr);
    const auto buttons = places->findChildren<QToolButton*>();
    REQUIRE(buttons.size() == 1);
    CHECK(buttons.front()->text() == QStringLiteral("Tune"));
}

TEST_CASE("each choice is one signal away: open the list, choose", "[ui]") {
    Window bench;
    std::optional<TuningChoice> chosen;
    QObject::connect(&bench.window.tunePage().choices(),
                     &ChoiceBar::tuningChosen,
                     &bench.window,
                     [&](const TuningChoice& choice) { chosen = choice; });
    auto* choir = bench.window.findChild<QComboBox*>(QStringLiteral("chooseChoir"));
    REQUIRE(choir != nullptr);
    REQUIRE(choir->count() == 3);
    choir->setCurrentIndex(2);
    Q_EMIT choir->activated(2);
    REQUIRE(chosen);
    CHECK(chosen->choir == QStringLiteral("4"));
}

TEST_CASE("the whole window fits on a small screen at twice the size", "[ui]") {
    Window bench;
    bench.window.show();
    // 1280 by 800 pixels at 200 % are 640 by 400.
    CHECK(bench.window.minimumSizeHint().width() <= 640);
    CHECK(bench.window.minimumSizeHint().height() <= 400);
}

TEST_CASE("all places together fit on a small screen at twice the size, by their signs", "[ui]") {
    Window bench;
    for (const Place place : {Place::Instrument,
                              Place::Temperament,
                              Place::Recheck,
                              Place::Action,
                              Place::Practise,
                              Place::Logbook}) {
        bench.window.addPlace(place, new QWidget);
    }
    CHECK(bench.window.minimumSizeHint().width() <= 640);
    CHECK(bench.window.minimumSizeHint().height() <= 400);
    bench.window.resize(640, 400);
    bench.window.show();
    QApplication::processEvents();
    const auto* places = bench.window.findChild<QWidget*>(QStringLiteral("places"));
    REQUIRE(places != nullptr);
    for (const QToolButton* button : places->findChildren<QToolButton*>()) {
        INFO(button->text().toStdString());
        CHECK(places->rect().contains(button->geometry()));
        CHECK(button->toolButtonStyle() == Qt::ToolButtonIconOnly);
    }
    bench.window.resize(1280, 800);
    QApplication::processEvents();
    CHECK(places->findChildren<QToolButton*>().front()->toolButtonStyle() ==
          Qt::ToolButtonTextUnderIcon);
}

TEST_CASE("a place that was added is reached by its number, and the keys of Tune rest meanwhile",
          "[ui]") {
    Window bench;
    auto* page = new QLabel(QStringLiteral("what was done"));
    bench.window.addPlace(Place::Logbook, page);
    CHECK(bench.window.place() == Place::Tune);
    QToolButton* there = nullptr;
    for (QToolButton* button : bench.window.findChildren<QToolButton*>()) {
        if (button->shortcut() == QKeySequence(QStringLiteral("Ctrl+7"))) {
            there = button;
        }
    }
    REQUIRE(there != nullptr);
    CHECK(bench.command(QKeySequence(Qt::Key_PageDown))->isEnabled());
    there->click();
    CHECK(bench.window.place() == Place::Logbook);
    CHECK(page->isVisibleTo(&bench.window));
    CHECK_FALSE(bench.window.tunePage().isVisibleTo(&bench.window));
    CHECK_FALSE(bench.command(QKeySequence(Qt::Key_PageDown))->isEnabled());
    bench.window.goToPlace(Place::Tune);
    CHECK(bench.command(QKeySequence(Qt::Key_PageDown))->isEnabled());
}

TEST_CASE("where the keyboard slides its position is chosen beside the worst thirds", "[ui]") {
    Window bench;
    bench.window.show();
    auto* box = bench.window.findChild<QComboBox*>(QStringLiteral("choosePosition"));
    REQUIRE(box != nullptr);
    CHECK_FALSE(box->isVisible());
    TuningChoice choice = firstOctave();
    choice.instrument = QStringLiteral("single-8-8");
    REQUIRE(bench.tuning.choose(choice));
    CHECK(box->isVisible());
    REQUIRE(box->count() == 2);
    CHECK(box->itemText(0).contains(QStringLiteral("tuned here")));
    CHECK(box->itemText(1).contains(QStringLiteral("441.2 Hz")));
    CHECK(box->itemText(1).contains(QStringLiteral("widest thirds")));
    std::optional<TuningChoice> chosen;
    QObject::connect(&bench.window.tunePage().choices(),
                     &ChoiceBar::tuningChosen,
                     &bench.window,
                     [&](const TuningChoice& picked) { chosen = picked; });
    box->setCurrentIndex(1);
    Q_EMIT box->activated(1);
    REQUIRE(chosen);
    CHECK(chosen->position == 1);
    CHECK(bench.window.minimumSizeHint().width() <= 640);
}

TEST_CASE("the options of a whole session are a key or a click away, of an octave there are none",
          "[ui]") {
    Window bench;
    bench.window.show();
    auto* more = bench.window.findChild<QToolButton*>(QStringLiteral("moreOptions"));
    REQUIRE(more != nullptr);
    QAction* command = bench.command(QKeySequence(Qt::CTRL | Qt::Key_F9));
    CHECK_FALSE(more->isVisible());
    CHECK_FALSE(command->isEnabled());
    TuningChoice whole = firstOctave();
    whole.extent = Extent::Whole;
    whole.order = StepOrder::FromA;
    REQUIRE(bench.tuning.choose(whole));
    CHECK(more->isVisible());
    int wanted = 0;
    QObject::connect(&bench.window, &MainWindow::optionsWanted, [&] { ++wanted; });
    QObject::connect(
        &bench.window.tunePage().choices(), &ChoiceBar::optionsWanted, [&] { ++wanted; });
    command->trigger();
    more->click();
    CHECK(wanted == 2);
    // 1280 by 800 pixels at 200 % are 640 by 400.
    CHECK(bench.window.minimumSizeHint().width() <= 640);
}

TEST_CASE("captions over narrow choices are shortened, not cut", "[ui]") {
    Window bench;
    TuningChoice whole = firstOctave();
    whole.extent = Extent::Whole;
    whole.order = StepOrder::FromA;
    REQUIRE(bench.tuning.choose(whole));
    bench.window.resize(1280, 800);
    bench.window.show();
    const auto captions = bench.window.tunePage().choices().findChildren<QLabel*>();
    QStringList wide;
    for (const QLabel* caption : captions) {
        wide << caption->text();
    }
    CHECK(wide.contains(QStringLiteral("&Temperament")));
    bench.window.resize(640, 480);
    bench.window.showHelp(false);
    QApplication::processEvents();
    for (const QLabel* caption : captions) {
        if (caption->isVisible()) {
            INFO(caption->text().toStdString());
            CHECK(caption->sizeHint().width() <= caption->width());
        }
    }
}
