#include "app/models/picture_maker.hpp"
#include "app/views/keyboard_view.hpp"
#include "tests/app/tuning_at_hand.hpp"

#include <QApplication>
#include <QMouseEvent>

using namespace quillbench;
using namespace quillbench::test;

namespace {

void send(QWidget& widget, QEvent::Type type, QPointF at) {
    const Qt::MouseButton button = type == QEvent::MouseMove ? Qt::NoButton : Qt::LeftButton;
    QMouseEvent event(type, at, widget.mapToGlobal(at), button, Qt::LeftButton, Qt::NoModifier);
    QApplication::sendEvent(&widget, &event);
}

/// A point on a key that no other key covers: near the front of a natural, the middle of a sharp.
QPointF pointOn(const KeyboardView& view, std::size_t key) {
    for (int y = view.height() - 30; y > 0; y -= 4) {
        for (int x = 0; x < view.width(); x += 2) {
            if (view.keyUnder(QPointF(x, y)) == key) {
                return QPointF(x + 3, y - 3);
            }
        }
    }
    FAIL("key " << key << " is not drawn");
    return {};
}

struct Keyboard {
    TuningModel model;
    KeyboardView view;
    int pressed = 0;
    int released = 0;
    int chosen = 0;

    Keyboard() {
        QObject::connect(&view, &KeyboardView::keyPressed, &view, [this] { ++pressed; });
        QObject::connect(&view, &KeyboardView::keyReleased, &view, [this] { ++released; });
        QObject::connect(&view, &KeyboardView::keyChosen, &view, [this] { ++chosen; });
        chooseFirstOctave(model);
        view.resize(1200, 190);
        view.show(keyboardPicture(model, model.session(), nullptr));
    }
};

} // namespace

TEST_CASE("every key of the compass is drawn and can be hit", "[ui]") {
    Keyboard keyboard;
    for (std::size_t key = 0; key < keyboard.view.picture().keys.size(); ++key) {
        CHECK(keyboard.view.keyUnder(pointOn(keyboard.view, key)) == key);
    }
}

TEST_CASE("a key sounds while the mouse holds it, and gliding plays the next", "[ui]") {
    Keyboard keyboard;
    keyboard.view.setPlayable(true);
    send(keyboard.view, QEvent::MouseButtonPress, pointOn(keyboard.view, 10));
    CHECK(keyboard.pressed == 1);
    send(keyboard.view, QEvent::MouseMove, pointOn(keyboard.view, 12));
    CHECK(keyboard.released == 1);
    CHECK(keyboard.pressed == 2);
    send(keyboard.view, QEvent::MouseButtonRelease, pointOn(keyboard.view, 12));
    CHECK(keyboard.released == 2);
}

TEST_CASE("without the virtual instrument a press chooses the string instead", "[ui]") {
    Keyboard keyboard;
    send(keyboard.view, QEvent::MouseButtonPress, pointOn(keyboard.view, 10));
    CHECK(keyboard.pressed == 0);
    CHECK(keyboard.chosen == 1);
}

TEST_CASE("the painted keyboard tells a screen reader how far the octave is", "[ui]") {
    Keyboard keyboard;
    settle(keyboard.model, 0);
    keyboard.view.show(keyboardPicture(keyboard.model, keyboard.model.session(), nullptr));
    CHECK(
        keyboard.view.accessibleDescription().contains(QStringLiteral("1 of 13 strings settled")));
    CHECK_FALSE(keyboard.view.accessibleName().isEmpty());
}
