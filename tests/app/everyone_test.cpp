#include "app/application.hpp"
#include "app/paint/theme.hpp"
#include "app/paint/window_style.hpp"
#include "app/places/temperament/circle_view.hpp"
#include "app/places/temperament/temperament_model.hpp"
#include "app/places/temperament/temperament_text.hpp"
#include "app/places/temperament/thirds_view.hpp"
#include "app/views/help_panel.hpp"
#include "app/views/tune_page.hpp"
#include "app/views/wires_view.hpp"
#include "tests/app/all_places.hpp"
#include "tests/app/contrast.hpp"

#include <catch2/catch.hpp>

#include <QAbstractButton>
#include <QAccessible>
#include <QAction>
#include <QApplication>
#include <QComboBox>
#include <QDir>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QMenu>
#include <QMenuBar>
#include <QRegularExpression>
#include <QSet>
#include <QShortcut>
#include <QTabBar>
#include <QTabWidget>
#include <QTemporaryDir>
#include <QTextBrowser>
#include <QToolButton>
#include <algorithm>
#include <array>
#include <memory>

using namespace quillbench;
using quillbench::test::contrast;
using quillbench::test::kAllPlaces;

namespace {

QString nameOf(Place place) {
    const QString page = helpPage(place, QStringLiteral("en"));
    static const QRegularExpression kTitle(QStringLiteral("<h1>([^<]+)</h1>"));
    return kTitle.match(page).captured(1);
}

LaunchOptions quietly(const QTemporaryDir& folder) {
    LaunchOptions options;
    options.settingsFolder = folder.path();
    options.instrument = QStringLiteral("double-8-8-4");
    options.choir = QStringLiteral("8");
    options.temperament = QStringLiteral("vallotti");
    options.source = SourceChoice{SourceKind::Virtual, {}, {}};
    return options;
}

/// The whole program in its window, at the virtual instrument.
struct Everything {
    QTemporaryDir folder;
    Application application;

    explicit Everything(QSize size = {1280, 800}) : application(quietly(folder)) {
        REQUIRE(application.begin());
        window().resize(size);
        window().activateWindow();
        settle();
    }

    [[nodiscard]] MainWindow& window() { return application.window(); }

    void go(Place place) {
        window().goToPlace(place);
        settle();
    }

    static void settle() {
        for (int i = 0; i < 5; ++i) {
            QApplication::processEvents();
        }
    }

    static void press(int key, Qt::KeyboardModifiers with = Qt::NoModifier) {
        QWidget* to = QApplication::focusWidget();
        REQUIRE(to != nullptr);
        // As a real key does: a command of that key first, where the widget does not want it itself.
        QKeyEvent wanted(QEvent::ShortcutOverride, key, with);
        wanted.ignore();
        QApplication::sendEvent(to, &wanted);
        QKeyEvent down(QEvent::KeyPress, key, with);
        QApplication::sendEvent(to, &down);
        settle();
    }
};

std::string widgetTold(const QWidget* widget) {
    return std::string(widget->metaObject()->className()) + " '" +
           widget->objectName().toStdString() + "' '" + widget->accessibleName().toStdString() +
           "'";
}

/// What of a place Tab has to reach: all that shows, is alive and takes the focus by it. Of tool buttons that exclude
/// each other one is enough: the arrow keys go on from it.
std::vector<QWidget*> reachable(QWidget& window) {
    std::vector<QWidget*> widgets;
    for (QWidget* widget : window.findChildren<QWidget*>()) {
        const auto* button = qobject_cast<QAbstractButton*>(widget);
        const bool oneOfSeveral =
            button != nullptr && button->autoExclusive() && !button->isChecked();
        if (widget->isVisible() && widget->isEnabled() && widget->window() == &window &&
            (widget->focusPolicy() & Qt::TabFocus) == Qt::TabFocus &&
            widget->focusProxy() == nullptr && !oneOfSeveral) {
            widgets.push_back(widget);
        }
    }
    return widgets;
}

QStringList keysOf(const QString& page) {
    static const QRegularExpression kKey(QStringLiteral("<kbd>([^<]+)</kbd>"));
    QStringList keys;
    for (auto each = kKey.globalMatch(page); each.hasNext();) {
        keys << each.next().captured(1);
    }
    return keys;
}

QSet<QString> boundKeys(MainWindow& window) {
    QSet<QString> bound;
    const auto add = [&bound](const QKeySequence& keys) {
        bound.insert(keys.toString(QKeySequence::PortableText));
    };
    for (const QAction* action : window.findChildren<QAction*>()) {
        for (const QKeySequence& keys : action->shortcuts()) {
            add(keys);
        }
    }
    for (const QShortcut* shortcut : window.findChildren<QShortcut*>()) {
        add(shortcut->key());
    }
    for (const QAbstractButton* button : window.findChildren<QAbstractButton*>()) {
        add(button->shortcut());
    }
    return bound;
}

} // namespace

TEST_CASE("every place has its help in both languages, with every part", "[ui]") {
    for (const Place place : kAllPlaces) {
        const QString english = helpPage(place, QStringLiteral("en"));
        const QString german = helpPage(place, QStringLiteral("de"));
        INFO(nameOf(place).toStdString());
        REQUIRE_FALSE(english.isEmpty());
        REQUIRE_FALSE(german.isEmpty());
        CHECK(english != german);
        // For what, step by step, pictures, keys, figures, cautions, sources.
        CHECK(english.count(QStringLiteral("<h2>")) == 6);
        for (const char* tag : {"<h1>", "<h2>", "<li>", "<tr>", "<p>", "<b>"}) {
            INFO(tag);
            CHECK(english.count(QLatin1String(tag)) == german.count(QLatin1String(tag)));
        }
        CHECK(keysOf(english) == keysOf(german));
        CHECK(keysOf(english).size() >= 2);
    }
    CHECK(helpPage(Place::Tune, QStringLiteral("xx")) ==
          helpPage(Place::Tune, QStringLiteral("en")));
}

TEST_CASE("while the help is read its keys move the text and decide nothing at Tune", "[ui]") {
    Everything all;
    all.window().showHelp(true);
    Everything::settle();
    auto* text = all.window().findChild<QTextBrowser*>(QStringLiteral("helpText"));
    REQUIRE(text != nullptr);
    for (const int key :
         {Qt::Key_Space, Qt::Key_Delete, Qt::Key_Up, Qt::Key_Right, Qt::Key_Return}) {
        QKeyEvent wanted(QEvent::ShortcutOverride, key, Qt::NoModifier);
        wanted.ignore();
        QApplication::sendEvent(text, &wanted);
        CHECK(wanted.isAccepted());
    }
    QKeyEvent function(QEvent::ShortcutOverride, Qt::Key_F8, Qt::NoModifier);
    function.ignore();
    QApplication::sendEvent(text, &function);
    CHECK_FALSE(function.isAccepted());
}

TEST_CASE("F1 means nothing else at any place", "[ui]") {
    Everything all;
    for (const Place place : kAllPlaces) {
        all.go(place);
        int owners = 0;
        for (const QAction* action : all.window().findChildren<QAction*>()) {
            owners += action->shortcuts().contains(QKeySequence(Qt::Key_F1)) ? 1 : 0;
        }
        CHECK(owners == 1);
        QWidget* focus = QApplication::focusWidget();
        REQUIRE(focus != nullptr);
        QKeyEvent wanted(QEvent::ShortcutOverride, Qt::Key_F1, Qt::NoModifier);
        wanted.ignore();
        QApplication::sendEvent(focus, &wanted);
        INFO(nameOf(place).toStdString());
        CHECK_FALSE(wanted.isAccepted());
    }
}

TEST_CASE("from right to left every place still stands, and a keyboard keeps its bass at the left",
          "[ui]") {
    QApplication::setLayoutDirection(Qt::RightToLeft);
    {
        Everything all;
        const auto* places = all.window().findChild<QWidget*>(QStringLiteral("places"));
        REQUIRE(places != nullptr);
        for (const Place place : kAllPlaces) {
            all.go(place);
            INFO(nameOf(place).toStdString());
            CHECK(places->mapTo(&all.window(), QPoint(0, 0)).x() > 1000);
            CHECK(all.window().width() == 1280);
            CHECK_FALSE(all.window().grab().isNull());
            for (const QWidget* widget : reachable(all.window())) {
                INFO(widgetTold(widget));
                CHECK_FALSE(widget->size().isEmpty());
            }
        }
        for (const char* name : {"wires",
                                 "keyboard",
                                 "breath",
                                 "pin",
                                 "level",
                                 "circle",
                                 "thirds",
                                 "compassPlots",
                                 "actionMap",
                                 "drift",
                                 "progress"}) {
            const auto* view = all.window().findChild<QWidget*>(QString::fromLatin1(name));
            INFO(name);
            REQUIRE(view != nullptr);
            CHECK(view->layoutDirection() == Qt::LeftToRight);
        }
    }
    QApplication::setLayoutDirection(Qt::LeftToRight);
}

TEST_CASE("a painted view is the same in a language written from right to left", "[ui]") {
    const auto drawn = [] {
        WiresView wires;
        WiresPicture picture;
        picture.sounding = SoundingWire{Cents(12.0), Cents(0.5), true};
        picture.marks = {MarkShown{Cents(12.0), Cents(0.5), true}};
        wires.show(picture);
        wires.resize(700, 300);
        return wires.grab().toImage();
    };
    const QImage leftToRight = drawn();
    QApplication::setLayoutDirection(Qt::RightToLeft);
    const QImage rightToLeft = drawn();
    QApplication::setLayoutDirection(Qt::LeftToRight);
    CHECK(leftToRight == rightToLeft);
}

TEST_CASE("notes and signs of the thirds are not turned round from right to left", "[ui]") {
    const auto drawn = [] {
        TuningModel tuning;
        TuningChoice choice;
        choice.instrument = QStringLiteral("double-8-8-4");
        choice.choir = QStringLiteral("8");
        choice.temperament = QStringLiteral("vallotti");
        choice.lowest = QStringLiteral("C3");
        REQUIRE(tuning.choose(choice));
        TemperamentModel temperament(tuning);
        temperament.follow(choice);
        ThirdsView thirds;
        thirds.show(thirdsPicture(temperament, true));
        thirds.resize(700, 400);
        CircleView circle;
        circle.show(circlePicture(temperament));
        circle.resize(400, 400);
        return std::pair(thirds.grab().toImage(), circle.grab().toImage());
    };
    const auto leftToRight = drawn();
    QApplication::setLayoutDirection(Qt::RightToLeft);
    const auto rightToLeft = drawn();
    QApplication::setLayoutDirection(Qt::LeftToRight);
    CHECK(leftToRight.first == rightToLeft.first);
    CHECK(leftToRight.second == rightToLeft.second);
}

TEST_CASE("a choice that was gone to is changed by the arrow keys, not the pin", "[ui]") {
    Everything all;
    all.go(Place::Tune);
    auto* choir = all.window().findChild<QComboBox*>(QStringLiteral("chooseChoir"));
    REQUIRE(choir != nullptr);
    REQUIRE(choir->count() > 1);
    choir->setFocus(Qt::ShortcutFocusReason);
    Everything::settle();
    for (const int key : {Qt::Key_Down, Qt::Key_Home}) {
        QKeyEvent wanted(QEvent::ShortcutOverride, key, Qt::NoModifier);
        wanted.ignore();
        QApplication::sendEvent(choir, &wanted);
        CHECK(wanted.isAccepted());
    }
    const int before = choir->currentIndex();
    Everything::press(Qt::Key_Down);
    CHECK(choir->currentIndex() == before + 1);
    // After a list was open the keys are those of the place.
    choir->setFocus();
    choir->showPopup();
    Everything::settle();
    choir->hidePopup();
    Everything::settle();
    CHECK_FALSE(choir->hasFocus());
}

TEST_CASE("a list to choose from leaves the document's keys to its place", "[ui]") {
    Everything all;
    all.go(Place::Instrument);
    auto* name = all.window().findChild<QLineEdit*>(QStringLiteral("instrumentName"));
    auto* list = all.window().findChild<QComboBox*>(QStringLiteral("instrumentList"));
    REQUIRE(name != nullptr);
    REQUIRE(list != nullptr);
    const QString before = name->text();
    name->setText(QStringLiteral("Another"));
    Q_EMIT name->editingFinished();
    list->setFocus();
    Everything::settle();
    // As a keyboard sends it: with the control character that Qt 6.4's lists take for a search.
    QKeyEvent undo(QEvent::KeyPress, Qt::Key_Z, Qt::ControlModifier, QStringLiteral("\x1a"));
    QApplication::sendEvent(list, &undo);
    Everything::settle();
    CHECK(name->text() == before);
}

TEST_CASE("who goes to a sheet by its key has the keyboard there", "[ui]") {
    Everything all;
    const std::array<std::pair<Place, const char*>, 2> kSheets{
        {{Place::Instrument, "instrumentTabs"}, {Place::Temperament, "temperamentTabs"}}};
    for (const auto& [place, name] : kSheets) {
        all.go(place);
        auto* tabs = all.window().findChild<QTabWidget*>(QString::fromLatin1(name));
        REQUIRE(tabs != nullptr);
        for (int sheet = 1; sheet < tabs->count(); ++sheet) {
            all.go(place); // the keyboard is outside
            tabs->setCurrentIndex(sheet);
            Everything::settle();
            INFO(name << " " << sheet);
            // "What is this?" has nothing to be changed before notes were heard.
            const bool here = tabs->currentWidget()->isAncestorOf(QApplication::focusWidget());
            CHECK((here || (sheet == 4 && tabs->tabBar()->hasFocus())));
        }
        tabs->tabBar()->setFocus();
        tabs->setCurrentIndex(0);
        Everything::settle();
        CHECK(tabs->tabBar()->hasFocus());
    }
}

TEST_CASE("Tab reaches everything at every place and comes round again", "[ui]") {
    Everything all;
    for (const Place place : kAllPlaces) {
        all.go(place);
        INFO(nameOf(place).toStdString());
        // A page that takes the focus only as a whole is not come back to.
        QSet<const QWidget*> met{QApplication::focusWidget()};
        Everything::press(Qt::Key_Tab);
        const QWidget* const first = QApplication::focusWidget();
        REQUIRE(first != nullptr);
        met.insert(first);
        constexpr int kMostSteps = 400;
        int steps = 0;
        do {
            Everything::press(Qt::Key_Tab);
            met.insert(QApplication::focusWidget());
        } while (QApplication::focusWidget() != first && ++steps < kMostSteps);
        CHECK(steps < kMostSteps);
        for (const QWidget* widget : reachable(all.window())) {
            INFO(widgetTold(widget));
            CHECK(met.contains(widget));
        }
    }
}

namespace {

/// Of the four sides of two pictures those along at least half of which they differ so that it is seen: by a contrast of 3
/// or more ([WCAG21] 1.4.11), within so many pixels of the edge.
int sidesThatDiffer(const QImage& a, const QImage& b, int within) {
    const auto differs = [&](int x, int y) {
        return a.pixel(x, y) != b.pixel(x, y) &&
               contrast(a.pixelColor(x, y), b.pixelColor(x, y)) >= 3.0;
    };
    const int wide = a.width();
    const int high = a.height();
    std::array<int, 4> seen{};
    for (int x = 0; x < wide; ++x) {
        bool top = false;
        bool bottom = false;
        for (int y = 0; y < within; ++y) {
            top = top || differs(x, y);
            bottom = bottom || differs(x, high - 1 - y);
        }
        seen[0] += top ? 1 : 0;
        seen[1] += bottom ? 1 : 0;
    }
    for (int y = 0; y < high; ++y) {
        bool left = false;
        bool right = false;
        for (int x = 0; x < within; ++x) {
            left = left || differs(x, y);
            right = right || differs(wide - 1 - x, y);
        }
        seen[2] += left ? 1 : 0;
        seen[3] += right ? 1 : 0;
    }
    return (2 * seen[0] >= wide ? 1 : 0) + (2 * seen[1] >= wide ? 1 : 0) +
           (2 * seen[2] >= high ? 1 : 0) + (2 * seen[3] >= high ? 1 : 0);
}

/// All that Tab comes to at a place, in its order.
std::vector<QWidget*> wayOfTab() {
    std::vector<QWidget*> way;
    for (Everything::press(Qt::Key_Tab);
         std::find(way.begin(), way.end(), QApplication::focusWidget()) == way.end();
         Everything::press(Qt::Key_Tab)) {
        way.push_back(QApplication::focusWidget());
    }
    return way;
}

} // namespace

TEST_CASE("what has the focus is seen, at every place, in every light", "[ui]") {
    QApplication::setStyle(new WindowStyle); // as in the program; the application owns it
    {
        Everything all;
        for (const Theme& theme :
             {Theme::light(), Theme::dark(), Theme::boldLight(), Theme::boldDark()}) {
            QApplication::setPalette(theme.palette());
            for (const Place place : kAllPlaces) {
                all.go(place);
                const std::vector<QWidget*> way = wayOfTab();
                REQUIRE(way.size() > 2);
                for (std::size_t i = 0; i < way.size(); ++i) {
                    QWidget* before = way[(i + way.size() - 1) % way.size()];
                    QWidget* widget = way[i];
                    before->setFocus(Qt::TabFocusReason);
                    Everything::settle();
                    // With what a picture that follows the focus scrolls by out of the way.
                    widget->setFocus(Qt::TabFocusReason);
                    before->setFocus(Qt::TabFocusReason);
                    Everything::settle();
                    constexpr int kAround = 3; // pixels
                    const QRect area =
                        QRect(widget->mapTo(&all.window(), QPoint(0, 0)), widget->size())
                            .adjusted(-kAround, -kAround, kAround, kAround) &
                        all.window().rect();
                    const QImage without = all.window().grab(area).toImage();
                    Everything::press(Qt::Key_Tab);
                    INFO(nameOf(place).toStdString()
                         << ", " << theme.paper.name().toStdString() << ": " << widgetTold(widget));
                    REQUIRE(QApplication::focusWidget() == widget);
                    const QImage with = all.window().grab(area).toImage();
                    // One may lie under the edge of what scrolls.
                    CHECK(sidesThatDiffer(without, with, 2 * kAround) >= 3);
                }
            }
        }
    }
    QApplication::setStyle(QStringLiteral("Fusion"));
    QApplication::setPalette(QApplication::style()->standardPalette());
}

TEST_CASE("every key that the help names does something at its place", "[ui]") {
    // They open a window of their own; what comes of it is tested with each place.
    const QStringList dialogs{
        QStringLiteral("Ctrl+S"), QStringLiteral("Ctrl+O"), QStringLiteral("Ctrl+P")};
    Everything all;
    for (const Place place : kAllPlaces) {
        all.go(place);
        const QSet<QString> bound = boundKeys(all.window());
        for (const QString& key : keysOf(helpPage(place, QStringLiteral("en")))) {
            const QKeySequence wanted(key, QKeySequence::PortableText);
            INFO(nameOf(place).toStdString() << ": " << key.toStdString());
            REQUIRE_FALSE(wanted.isEmpty());
            const Qt::KeyboardModifiers with = wanted[0].keyboardModifiers();
            const int plain = wanted[0].key();
            const bool function = plain >= Qt::Key_F1 && plain <= Qt::Key_F12;
            // A key without modifiers may belong to a picture or a list that has not got the focus.
            const bool ofPlace = function || (with & (Qt::ControlModifier | Qt::AltModifier)) != 0;
            if (ofPlace && !dialogs.contains(key) &&
                !bound.contains(wanted.toString(QKeySequence::PortableText))) {
                QKeyEvent down(QEvent::KeyPress, plain, with);
                QApplication::sendEvent(QApplication::focusWidget(), &down);
                CHECK(down.isAccepted());
            }
        }
    }
}

TEST_CASE("high contrast and less motion are there again at the next start", "[ui]") {
    const QTemporaryDir folder;
    const auto start = [&folder] {
        auto made = std::make_unique<Application>(quietly(folder));
        REQUIRE(made->begin());
        return made;
    };
    {
        const auto first = start();
        for (const Qt::Key key : {Qt::Key_F2, Qt::Key_F3}) {
            for (QAction* action : first->window().findChildren<QAction*>()) {
                if (action->shortcuts().contains(QKeySequence(Qt::SHIFT | key))) {
                    action->trigger();
                }
            }
        }
        CHECK(QApplication::palette() == Theme::boldLight().palette());
    }
    const auto second = start();
    CHECK(QApplication::palette() == Theme::boldLight().palette());
    for (const Qt::Key key : {Qt::Key_F2, Qt::Key_F3}) {
        for (const QAction* action : second->window().findChildren<QAction*>()) {
            if (action->shortcuts().contains(QKeySequence(Qt::SHIFT | key))) {
                CHECK(action->isChecked());
            }
        }
    }
}

TEST_CASE("the help leaves a small window its place", "[ui]") {
    Everything all({640, 400}); // 1280 × 800 at 200 %
    for (const Place place : kAllPlaces) {
        all.go(place);
        all.window().showHelp(true);
        Everything::settle();
        INFO(nameOf(place).toStdString());
        CHECK(all.window().width() <= 640);
        CHECK(all.window().height() <= 400);
        const auto* text = all.window().findChild<QTextBrowser*>(QStringLiteral("helpText"));
        REQUIRE(text != nullptr);
        CHECK(text->isVisible());
        CHECK(text->width() >= 240);
        all.window().showHelp(false);
    }
}

TEST_CASE("at every place what it says is read out when it changes", "[ui]") {
    Everything all;
    for (const Place place : kAllPlaces) {
        all.go(place);
        INFO(nameOf(place).toStdString());
        int announced = 0;
        for (QLabel* label : all.window().findChildren<QLabel*>()) {
            const QAccessibleInterface* told = QAccessible::queryAccessibleInterface(label);
            // Itself it may be hidden while there is nothing to tell.
            const bool here = label->parentWidget()->isVisible();
            announced +=
                here && told != nullptr && told->role() == QAccessible::Notification ? 1 : 0;
        }
        CHECK(announced >= 1);
    }
}
