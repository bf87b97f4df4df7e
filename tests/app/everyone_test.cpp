#include "app/application.hpp"
#include "app/paint/theme.hpp"
#include "app/views/help_panel.hpp"
#include "app/views/tune_page.hpp"
#include "app/views/wires_view.hpp"

#include <catch2/catch.hpp>

#include <QAbstractButton>
#include <QAction>
#include <QApplication>
#include <QDir>
#include <QKeyEvent>
#include <QLabel>
#include <QMenu>
#include <QMenuBar>
#include <QRegularExpression>
#include <QSet>
#include <QShortcut>
#include <QTabBar>
#include <QTemporaryDir>
#include <QTextBrowser>
#include <QToolButton>
#include <algorithm>
#include <array>

using namespace quillbench;

namespace {

constexpr std::array kAllPlaces{Place::Instrument,
                                Place::Temperament,
                                Place::Tune,
                                Place::Recheck,
                                Place::Action,
                                Place::Practise,
                                Place::Logbook};

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

/// Where Tab leads from where the focus is, until it comes back.
std::vector<QWidget*> roundByTab() {
    std::vector<QWidget*> round;
    for (int i = 0; i < 200; ++i) {
        Everything::press(Qt::Key_Tab);
        QWidget* at = QApplication::focusWidget();
        if (at == nullptr || std::find(round.begin(), round.end(), at) != round.end()) {
            break;
        }
        round.push_back(at);
    }
    return round;
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

/// Whether a key does something at the place that is seen: a command, a button's key, or a widget that takes it.
bool isBound(QWidget& window, const QKeySequence& keys) {
    for (const QAction* action : window.findChildren<QAction*>()) {
        if (action->shortcuts().contains(keys)) {
            return true;
        }
    }
    for (const QAbstractButton* button : window.findChildren<QAbstractButton*>()) {
        if (button->isVisible() && button->shortcut() == keys) {
            return true;
        }
    }
    for (const QShortcut* shortcut : window.findChildren<QShortcut*>()) {
        if (shortcut->key() == keys) {
            return true;
        }
    }
    const QKeyCombination combined = keys[0];
    for (QWidget* widget : window.findChildren<QWidget*>()) {
        if (!widget->isVisible() || widget->focusPolicy() == Qt::NoFocus ||
            widget->inherits("QTextBrowser")) {
            continue;
        }
        QKeyEvent press(QEvent::KeyPress, combined.key(), combined.keyboardModifiers());
        press.ignore();
        QApplication::sendEvent(widget, &press);
        if (press.isAccepted()) {
            return true;
        }
    }
    return false;
}

QStringList keysOf(const QString& page) {
    static const QRegularExpression kKey(QStringLiteral("<kbd>([^<]+)</kbd>"));
    QStringList keys;
    for (auto each = kKey.globalMatch(page); each.hasNext();) {
        keys << each.next().captured(1);
    }
    return keys;
}

} // namespace

TEST_CASE("Tab leads to everything that can be used, at every place", "[ui]") {
    Everything all;
    for (const Place place : kAllPlaces) {
        all.go(place);
        const std::vector<QWidget*> round = roundByTab();
        for (const QWidget* wanted : reachable(all.window())) {
            INFO(nameOf(place).toStdString() << ": " << widgetTold(wanted));
            CHECK(std::find(round.begin(), round.end(), wanted) != round.end());
        }
    }
}

TEST_CASE("where the focus is can be seen, at every place", "[ui]") {
    Everything all;
    for (const Place place : kAllPlaces) {
        all.go(place);
        for (QWidget* widget : reachable(all.window())) {
            widget->setFocus(Qt::TabFocusReason);
            Everything::settle();
            if (QApplication::focusWidget() != widget) {
                continue; // it hands the focus on
            }
            const QImage with = all.window().grab().toImage();
            widget->clearFocus();
            Everything::settle();
            const QImage without = all.window().grab().toImage();
            INFO(nameOf(place).toStdString() << ": " << widgetTold(widget));
            CHECK(with != without);
        }
    }
}

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

TEST_CASE("every key that the help names is bound at its place", "[ui]") {
    Everything all;
    for (const Place place : kAllPlaces) {
        for (const QString& key : keysOf(helpPage(place, QStringLiteral("en")))) {
            all.go(place);
            const auto keys = QKeySequence::fromString(key, QKeySequence::PortableText);
            INFO(nameOf(place).toStdString() << ": " << key.toStdString());
            REQUIRE_FALSE(keys.isEmpty());
            CHECK(isBound(all.window(), keys));
        }
    }
    CHECK_FALSE(isBound(all.window(), QKeySequence(Qt::CTRL | Qt::ALT | Qt::Key_F10)));
}

TEST_CASE("F1 opens the help of the place at hand beside it, and Esc gives the place back",
          "[ui]") {
    Everything all;
    auto* help = all.window().findChild<HelpPanel*>();
    auto* text = all.window().findChild<QTextBrowser*>(QStringLiteral("helpText"));
    REQUIRE(help != nullptr);
    REQUIRE(text != nullptr);
    CHECK_FALSE(help->isVisible());
    for (const Place place : kAllPlaces) {
        all.go(place);
        all.window().showHelp(true);
        Everything::settle();
        INFO(nameOf(place).toStdString());
        CHECK(help->isVisible());
        CHECK(text->hasFocus());
        CHECK(text->toPlainText().startsWith(nameOf(place)));
        CHECK(text->accessibleName().contains(nameOf(place)));
        Everything::press(Qt::Key_Escape);
        CHECK_FALSE(help->isVisible());
    }
    // It does not cover what is tuned, but where there is no room for both.
    all.go(Place::Tune);
    all.window().showHelp(true);
    Everything::settle();
    CHECK(all.window().tunePage().isVisible());
    CHECK_FALSE(all.window().tunePage().visibleRegion().isEmpty());
    CHECK(help->mapTo(&all.window(), QPoint(0, 0)).x() >=
          all.window()
              .tunePage()
              .mapTo(&all.window(), QPoint(all.window().tunePage().width() - 1, 0))
              .x());
    for (int i = 0; i < 2; ++i) { // the first brings it below the width that has room for both
        all.window().resize(640, 400);
        Everything::settle();
    }
    CHECK(all.window().width() == 640);
    CHECK_FALSE(all.window().tunePage().isVisible());
    CHECK(text->height() > 250);
    all.window().resize(1280, 800);
    Everything::settle();
    CHECK(all.window().tunePage().isVisible());
    all.go(Place::Logbook);
    CHECK(text->toPlainText().startsWith(nameOf(Place::Logbook)));
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
        for (const char* name : {"wires", "keyboard", "breath", "pin", "level"}) {
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

TEST_CASE("high contrast and less motion are chosen, worn at once and remembered", "[ui]") {
    QTemporaryDir folder;
    const auto toggle = [](MainWindow& window, const QKeySequence& key) {
        for (QAction* action : window.findChildren<QAction*>()) {
            if (action->shortcuts().contains(key)) {
                action->trigger();
                return action->isChecked();
            }
        }
        return false;
    };
    const QKeySequence contrast(Qt::SHIFT | Qt::Key_F2);
    const QKeySequence calm(Qt::SHIFT | Qt::Key_F3);
    {
        Application application(quietly(folder));
        REQUIRE(application.begin());
        CHECK(toggle(application.window(), contrast));
        CHECK(toggle(application.window(), calm));
        CHECK(themeOf(application.window().palette()).ink == QColor(Qt::black));
    }
    {
        Application application(quietly(folder));
        REQUIRE(application.begin());
        CHECK(themeOf(application.window().palette()).ink == QColor(Qt::black));
        CHECK_FALSE(toggle(application.window(), contrast));
        CHECK(themeOf(application.window().palette()).ink == Theme::light().ink);
        CHECK_FALSE(toggle(application.window(), calm));
    }
}
