#include "app/views/computer_keys.hpp"
#include "tests/app/tuning_at_hand.hpp"

#include <QCoreApplication>
#include <QElapsedTimer>
#include <QKeyEvent>

using namespace quillbench;

namespace {

QKeyEvent keyEvent(QEvent::Type type, Qt::Key key, bool repeat = false) {
    return {type, key, Qt::NoModifier, QString(), repeat};
}

/// What a held key told.
struct Told {
    HeldKeys held;
    int down = 0;
    int up = 0;

    Told() {
        QObject::connect(&held, &HeldKeys::pressed, &held, [this] { ++down; });
        QObject::connect(&held, &HeldKeys::released, &held, [this] { ++up; });
    }

    void take(QEvent::Type type, bool repeat = false) {
        held.take(keyEvent(type, Qt::Key_N, repeat), 9);
    }

    [[nodiscard]] bool letGo(qint64 withinMs = 5000) const {
        QElapsedTimer clock;
        clock.start();
        while (up == 0 && clock.elapsed() < withinMs) {
            QCoreApplication::processEvents(QEventLoop::AllEvents, 10);
        }
        return up > 0;
    }
};

} // namespace

TEST_CASE("a held key that repeats is one press, marked as a repeat or not", "[ui]") {
    const bool marked = GENERATE(false, true);
    Told told;
    told.take(QEvent::KeyPress);
    for (int i = 0; i < 5; ++i) {
        told.take(QEvent::KeyRelease, marked);
        told.take(QEvent::KeyPress, marked);
    }
    CHECK_FALSE(told.letGo(100));
    CHECK(told.down == 1);
    told.take(QEvent::KeyRelease);
    CHECK(told.letGo());
    CHECK(told.up == 1);
    told.take(QEvent::KeyPress);
    CHECK(told.down == 2);
}

TEST_CASE("two keys that are held at once are told apart", "[ui]") {
    Told told;
    told.take(QEvent::KeyPress);
    told.held.take(keyEvent(QEvent::KeyPress, Qt::Key_H), 8);
    CHECK(told.down == 2);
    told.held.take(keyEvent(QEvent::KeyRelease, Qt::Key_H), 8);
    CHECK(told.letGo());
    CHECK(told.up == 1);
}

TEST_CASE("the rows of the computer's keyboard are an octave and the next", "[ui]") {
    CHECK(noteOfComputerKey(keyEvent(QEvent::KeyPress, Qt::Key_Z)) == 0);
    CHECK(noteOfComputerKey(keyEvent(QEvent::KeyPress, Qt::Key_N)) == 9);
    CHECK(noteOfComputerKey(keyEvent(QEvent::KeyPress, Qt::Key_Q)) == 12);
    CHECK(noteOfComputerKey(keyEvent(QEvent::KeyPress, Qt::Key_2)) == 13);
    CHECK_FALSE(noteOfComputerKey(keyEvent(QEvent::KeyPress, Qt::Key_A)));
}
