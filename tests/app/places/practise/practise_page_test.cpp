#include "app/places/practise/practise_page.hpp"
#include "app/places/practise/progress_view.hpp"
#include "app/views/breath_view.hpp"
#include "tests/app/places/practise/practise_at_hand.hpp"

#include <QAbstractButton>
#include <QAccessible>
#include <QApplication>
#include <QComboBox>
#include <QKeyEvent>
#include <QLabel>
#include <QLayout>
#include <QRegularExpression>
#include <QShortcut>
#include <QSlider>
#include <QTableWidget>
#include <algorithm>
#include <set>

using namespace quillbench;
using namespace quillbench::test;

namespace {

struct PageAtHand : PractiseAtHand {
    PractisePage page{model};

    void press(int key, Qt::KeyboardModifiers with = Qt::NoModifier) {
        QKeyEvent event(QEvent::KeyPress, key, with);
        QApplication::sendEvent(&page, &event);
    }

    [[nodiscard]] QString text(const char* name) const {
        const auto* label = page.findChild<QLabel*>(QString::fromLatin1(name));
        REQUIRE(label != nullptr);
        return label->text();
    }
};

} // namespace

TEST_CASE("a sitting by keys alone: play, tap, show, next", "[ui]") {
    PageAtHand bench;
    CHECK(bench.text("practiseSentence").startsWith(QStringLiteral("Return plays.")));
    bench.press(Qt::Key_Return);
    CHECK(bench.model.phase() == PractisePhase::Listening);
    for (const int key : {Qt::Key_Space, Qt::Key_J, Qt::Key_F}) {
        bench.press(key);
    }
    CHECK(bench.model.taps().size() == 3);
    // Taps at their own pace: how evenly the keys above arrived is the machine's affair.
    bench.press(Qt::Key_F5);
    CHECK(bench.model.taps().empty());
    bench.tapAt(2.0, 3);
    bench.press(Qt::Key_Return);
    CHECK(bench.model.phase() == PractisePhase::Uncovered);
    CHECK_FALSE(bench.page.findChild<BreathView*>()->picture().curve.empty());
    bench.press(Qt::Key_Return);
    CHECK(bench.model.phase() == PractisePhase::Listening);
    CHECK(bench.model.taps().empty());
}

TEST_CASE("keys of the page go before commands of the window", "[ui]") {
    PageAtHand bench;
    for (const int key : {Qt::Key_Space, Qt::Key_Return, Qt::Key_A, Qt::Key_F5}) {
        QKeyEvent event(QEvent::ShortcutOverride, key, Qt::NoModifier);
        event.ignore();
        QApplication::sendEvent(&bench.page, &event);
        CHECK(event.isAccepted());
    }
    QKeyEvent quit(QEvent::ShortcutOverride, Qt::Key_Q, Qt::ControlModifier);
    quit.ignore();
    QApplication::sendEvent(&bench.page, &quit);
    CHECK_FALSE(quit.isAccepted());
}

TEST_CASE("the pin is turned by arrow keys, and the hand leaves it by L", "[ui]") {
    PageAtHand bench;
    bench.wish(ExerciseKind::BringTogether, PracticeInterval::Unison);
    bench.press(Qt::Key_Return);
    (void)bench.hear(0.1);
    bench.press(Qt::Key_Up);
    const double hair = bench.model.turned();
    CHECK(hair > 0.0);
    bench.press(Qt::Key_Down, Qt::ShiftModifier);
    CHECK(bench.model.turned() == Approx(-9.0 * hair));
    (void)bench.hear(0.1);
    bench.press(Qt::Key_L);
    (void)bench.hear(0.1);
    bench.press(Qt::Key_Return);
    CHECK(bench.model.phase() == PractisePhase::Uncovered);
    // Half of the pin's twist was felt until the hammer was let go.
    CHECK(bench.model.path().jumped > Cents(0.0));
}

TEST_CASE("a whole plan and a comparison by keys alone", "[ui]") {
    PageAtHand bench;
    bench.press(Qt::Key_F9);
    REQUIRE(bench.model.bearings());
    CHECK(bench.text("practiseSentence").startsWith(QStringLiteral("Step 1 of")));
    bench.press(Qt::Key_Return);
    (void)bench.hear(0.1);
    bench.press(Qt::Key_Up);
    bench.press(Qt::Key_L);
    (void)bench.hear(0.1);
    bench.press(Qt::Key_Return);
    CHECK(bench.model.bearings()->at() == 1);
    bench.press(Qt::Key_Backspace);
    CHECK(bench.model.bearings()->at() == 0);
    bench.press(Qt::Key_F9);
    CHECK_FALSE(bench.model.bearings());
    bench.wish(ExerciseKind::Compare, PracticeInterval::Fifth);
    bench.press(Qt::Key_Return);
    bench.press(Qt::Key_Space);
    bench.press(Qt::Key_2);
    CHECK(bench.model.phase() == PractisePhase::Uncovered);
    CHECK(bench.model.saidSecond());
    // The choice shown is the one that is practised.
    CHECK(bench.page.findChild<QAbstractButton*>(QStringLiteral("exercise4"))->isChecked());
}

TEST_CASE("who leaves a little comes to an interval that is tempered", "[ui]") {
    PageAtHand bench; // begins at the unison
    bench.page.findChild<QAbstractButton*>(QStringLiteral("exercise3"))->click();
    CHECK(bench.model.wished().kind == ExerciseKind::LeaveALittle);
    CHECK(bench.model.wished().interval == PracticeInterval::Fifth);
    CHECK(bench.model.exercise().has_value());
}

TEST_CASE("F8 asks for the learner's own instrument", "[ui]") {
    PageAtHand bench;
    int wanted = 0;
    QObject::connect(&bench.page, &PractisePage::ownWanted, [&](bool own) { wanted += own; });
    bench.press(Qt::Key_F8);
    CHECK(wanted == 1);
}

namespace {

/// What a screen reader says of a widget.
QString saidOf(QWidget& widget) {
    QAccessibleInterface* interface = QAccessible::queryAccessibleInterface(&widget);
    return interface == nullptr ? QString() : interface->text(QAccessible::Name);
}

/// A frame around others says nothing itself; of a list, a table or a slider the whole is named, not its parts.
bool speaks(const QWidget& widget) {
    const QString name = widget.objectName();
    const bool container = widget.layout() != nullptr;
    const auto* label = qobject_cast<const QLabel*>(&widget);
    return !container && !name.startsWith(QStringLiteral("qt_")) &&
           (label == nullptr || !label->text().isEmpty());
}

/// Everything that can be seen has a name; everything that can be pressed or chosen is reached by Tab, and is done by a
/// key of its own besides.
void checkWidgets(PageAtHand& bench, const char* state) {
    QApplication::processEvents();
    std::set<const QWidget*> reached;
    for (const QWidget* at = bench.page.nextInFocusChain(); at != &bench.page;
         at = at->nextInFocusChain()) {
        reached.insert(at);
    }
    const auto* steps = bench.page.findChild<QTableWidget*>();
    int pressed = 0;
    for (QWidget* widget : bench.page.findChildren<QWidget*>()) {
        if (!widget->isVisibleTo(&bench.page) || !speaks(*widget)) {
            continue;
        }
        INFO(state << ": " << widget->objectName().toStdString() << ", a "
                   << widget->metaObject()->className());
        const bool inTable = widget != steps && steps->isAncestorOf(widget);
        if (!inTable) {
            CHECK_FALSE(saidOf(*widget).isEmpty());
        }
        const auto* button = qobject_cast<const QAbstractButton*>(widget);
        const bool acts = !inTable && (button != nullptr || qobject_cast<QComboBox*>(widget) ||
                                       qobject_cast<QSlider*>(widget));
        if (!acts) {
            continue;
        }
        ++pressed;
        CHECK((widget->focusPolicy() & Qt::TabFocus) != 0);
        CHECK(reached.count(widget) == 1);
        if (button != nullptr) {
            static const QRegularExpression named(
                QStringLiteral("&\\w|\\((?:F\\d|[A-Z]|\\d|Return)\\)"));
            CHECK(named.match(button->text()).hasMatch());
        } else {
            const auto labels = bench.page.findChildren<QLabel*>();
            CHECK(std::any_of(labels.begin(), labels.end(), [widget](const QLabel* label) {
                return label->buddy() == widget && label->isVisible() &&
                       label->text().contains(QLatin1Char('&'));
            }));
        }
    }
    CHECK(pressed >= 8);
}

} // namespace

TEST_CASE(
    "everything on the page has a name, a key and a place in the order of Tab, in every state",
    "[ui]") {
    PageAtHand bench;
    bench.page.resize(1280, 700);
    bench.page.show();
    const auto kind = static_cast<ExerciseKind>(GENERATE(range(0, int{kExerciseKinds})));
    bench.wish(kind, PracticeInterval::Fifth);
    checkWidgets(bench, "asked");
    bench.press(Qt::Key_Return);
    checkWidgets(bench, "listening");
    (void)bench.hear(0.1);
    bench.tapAt(2.0, 4);
    bench.model.playSecond();
    for (const int key : {Qt::Key_W, Qt::Key_1, Qt::Key_Return}) {
        if (bench.model.phase() == PractisePhase::Listening) {
            bench.press(key);
        }
    }
    REQUIRE(bench.model.phase() == PractisePhase::Uncovered);
    checkWidgets(bench, "uncovered");
    bench.page.showCaution();
    checkWidgets(bench, "caution");
    bench.page.tell(QStringLiteral("Loudspeaker: gone"));
    checkWidgets(bench, "told");
}

TEST_CASE("where there is little room the same keys choose the exercise", "[ui]") {
    PageAtHand bench;
    bench.page.setMinimumSize(560, 340); // as inside the window
    bench.page.resize(640, 400);
    bench.page.show();
    QApplication::processEvents();
    const auto* kind = bench.page.findChild<QComboBox*>(QStringLiteral("practiseKind"));
    REQUIRE(kind->isVisible());
    const auto keys = bench.page.findChildren<QShortcut*>();
    REQUIRE(keys.size() == 7);
    std::set<QString> different;
    for (QShortcut* key : keys) {
        CHECK(key->isEnabled());
        different.insert(key->key().toString(QKeySequence::PortableText));
    }
    CHECK(different.size() == 7);
    CHECK(different.count(QStringLiteral("Alt+Y")) == 1);
    for (QShortcut* key : keys) {
        if (key->key() == QKeySequence(QStringLiteral("Alt+Y"))) {
            Q_EMIT key->activated();
        }
    }
    CHECK(bench.model.wished().kind == ExerciseKind::WhichWay);
    bench.page.resize(1280, 700);
    QApplication::processEvents();
    CHECK_FALSE(keys.front()->isEnabled()); // seen again: the mnemonics themselves
}

TEST_CASE("the table of a whole plan is named and reached by Tab", "[ui]") {
    PageAtHand bench;
    bench.page.resize(1280, 700);
    bench.page.show();
    bench.press(Qt::Key_F9);
    checkWidgets(bench, "plan");
    while (!bench.model.bearings()->done()) {
        bench.press(Qt::Key_Return);
    }
    const auto* steps = bench.page.findChild<QTableWidget*>();
    REQUIRE(steps->isVisible());
    CHECK(steps->focusPolicy() == Qt::TabFocus);
    checkWidgets(bench, "plan done");
}

TEST_CASE("on the learner's own instrument everything has a name and a key too", "[ui]") {
    PageAtHand bench;
    bench.page.resize(1280, 700);
    bench.page.show();
    bench.model.setOwn(OwnStrings(*findExample("double-8-8-4"), [](StringId string) {
        return ExpectedString{string, nominalPitch(*findExample("double-8-8-4"), string), 0.0};
    }));
    checkWidgets(bench, "own, asked");
    bench.press(Qt::Key_Return);
    checkWidgets(bench, "own, listening");
}

TEST_CASE("a sitting starts quiet, and the slider is held to its range", "[ui]") {
    PageAtHand bench;
    CHECK(bench.model.level() == Approx(kQuietStartDb));
    bench.model.setLevel(30.0);
    CHECK(bench.model.level() == Approx(kLoudestDb));
}
