#include "app/places/practise/practise_page.hpp"
#include "app/places/practise/progress_view.hpp"
#include "app/views/breath_view.hpp"
#include "tests/app/places/practise/practise_at_hand.hpp"

#include <QAbstractButton>
#include <QApplication>
#include <QComboBox>
#include <QKeyEvent>
#include <QLabel>
#include <QSlider>
#include <QTableWidget>

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

TEST_CASE("F8 asks for the learner's own instrument", "[ui]") {
    PageAtHand bench;
    int wanted = 0;
    QObject::connect(&bench.page, &PractisePage::ownWanted, [&](bool own) { wanted += own; });
    bench.press(Qt::Key_F8);
    CHECK(wanted == 1);
}

TEST_CASE("everything on the page has a name for a screen reader", "[ui]") {
    const PageAtHand bench;
    for (const QAbstractButton* button : bench.page.findChildren<QAbstractButton*>()) {
        CHECK_FALSE((button->accessibleName() + button->text()).isEmpty());
    }
    for (const QComboBox* box : bench.page.findChildren<QComboBox*>()) {
        CHECK_FALSE(box->accessibleName().isEmpty());
    }
    for (const QSlider* slider : bench.page.findChildren<QSlider*>()) {
        CHECK_FALSE(slider->accessibleName().isEmpty());
    }
    for (const QTableWidget* table : bench.page.findChildren<QTableWidget*>()) {
        CHECK_FALSE(table->accessibleName().isEmpty());
    }
    CHECK_FALSE(bench.page.findChild<BreathView*>()->accessibleName().isEmpty());
    CHECK_FALSE(bench.page.findChild<ProgressView*>()->accessibleName().isEmpty());
}

TEST_CASE("a sitting starts quiet, and the slider is held to its range", "[ui]") {
    PageAtHand bench;
    CHECK(bench.model.level() == Approx(kQuietStartDb));
    bench.model.setLevel(30.0);
    CHECK(bench.model.level() == Approx(kLoudestDb));
}
