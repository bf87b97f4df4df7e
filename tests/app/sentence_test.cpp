#include "app/views/sentence.hpp"

#include <catch2/catch.hpp>

#include <QFontMetrics>

using namespace quillbench;

namespace {

const QString kTask =
    QStringLiteral("Back 8: play every key three times with the same touch, held a second. "
                   "14 of 61 keys heard.");

int heightOf(const Sentence& sentence, const QString& text) {
    const QRect room(0, 0, sentence.contentsRect().width(), 1000);
    return QFontMetrics(sentence.font()).boundingRect(room, Qt::TextWordWrap, text).height();
}

} // namespace

TEST_CASE("a sentence never leaves one word alone on its last line", "[ui]") {
    Sentence sentence(nullptr, "sentence");
    sentence.setText(kTask);
    const int width = GENERATE(range(300, 1300, 7)); // pixels
    sentence.resize(width, 60);
    sentence.fit(24);
    const QString before = kTask.left(kTask.lastIndexOf(QLatin1Char(' ')));

    CHECK(heightOf(sentence, before) == heightOf(sentence, kTask));
    CHECK(heightOf(sentence, kTask) <= sentence.height());
}

TEST_CASE("a sentence whose lines were shared out asks for no more room", "[ui]") {
    Sentence sentence(nullptr, "sentence");
    sentence.setText(QStringLiteral("Draw one register alone."));
    sentence.resize(1300, 60);
    sentence.fit(24);
    const int least = sentence.minimumSizeHint().width();
    sentence.setText(kTask);
    for (int width = 1290; width > 300; width -= 10) {
        sentence.resize(width, 60);
        sentence.fit(24);
        CHECK(sentence.minimumSizeHint().width() <= least + 100);
    }
}

TEST_CASE("a sentence of one word stands as it is", "[ui]") {
    Sentence sentence(nullptr, "sentence");
    sentence.setText(QStringLiteral("Listen"));
    sentence.resize(400, 60);
    sentence.fit(24);
    CHECK(sentence.contentsRect().width() == 400);
}
