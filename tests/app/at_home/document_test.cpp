#include "app/views/document.hpp"

#include <catch2/catch.hpp>

#include <QKeyEvent>

using namespace quillbench;

TEST_CASE("a file named without a suffix gets the one by which a desktop knows it", "[ui]") {
    CHECK(withSuffix(QStringLiteral("/home/a.b/own")) ==
          QStringLiteral("/home/a.b/own.quillbench"));
    CHECK(withSuffix(QStringLiteral("own.json")) == QStringLiteral("own.json"));
}

TEST_CASE("the keys of a document do what they do elsewhere", "[ui]") {
    QString done;
    const DocumentKeys keys{[&] { done += QLatin1Char('u'); },
                            [&] { done += QLatin1Char('r'); },
                            [&] { done += QLatin1Char('o'); },
                            [&] { done += QLatin1Char('s'); },
                            [&] { done += QLatin1Char('p'); }};
    const auto press = [&](int key, Qt::KeyboardModifiers with) {
        const QKeyEvent event(QEvent::KeyPress, key, with);
        CHECK(isDocumentKey(event) == takeDocumentKey(event, keys));
    };
    press(Qt::Key_Z, Qt::ControlModifier);
    press(Qt::Key_Z, Qt::ControlModifier | Qt::ShiftModifier);
    press(Qt::Key_O, Qt::ControlModifier);
    press(Qt::Key_S, Qt::ControlModifier);
    press(Qt::Key_P, Qt::ControlModifier);
    press(Qt::Key_P, Qt::NoModifier);
    CHECK(done == QStringLiteral("urosp"));
}
