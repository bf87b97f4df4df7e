#include "app/text/format.hpp"
#include "app/text/sound_text.hpp"
#include "app/text/written_text.hpp"

#include <catch2/catch.hpp>

#include <QTextDocument>

using namespace quillbench;

TEST_CASE("cents are written to a tenth at most, with a true minus", "[ui]") {
    CHECK(signedCents(Cents(-2.44)) == QStringLiteral("\u22122.4"));
    CHECK(signedCents(Cents(0.26)) == QStringLiteral("+0.3"));
    CHECK(signedCents(Cents(-0.04)) == QStringLiteral("0.0"));
    CHECK(signedCents(Cents(123.4)) == QStringLiteral("+123"));
    CHECK(signedTenths(-8.94) == QStringLiteral("\u22128.9"));
    CHECK(signedTenths(0.26) == QStringLiteral("+0.3"));
    CHECK(signedTenths(-0.04) == QStringLiteral("0.0"));
    CHECK(signedTenths(123.44) == QStringLiteral("+123.4"));
}

TEST_CASE("an uncertainty is never understated", "[ui]") {
    CHECK(plusMinus(Cents(0.01)) == QStringLiteral("\u00b1 0.1"));
    CHECK(plusMinus(Cents(0.1)) == QStringLiteral("\u00b1 0.1"));
    CHECK(plusMinus(Cents(0.11)) == QStringLiteral("\u00b1 0.2"));
}

TEST_CASE("a lost device is said with its reason, and what goes on", "[ui]") {
    const EngineState lost{EnginePhase::Lost,
                           Error{ErrorCode::Environment, "the device does not answer", {}}};
    const QString text = sourceText(QStringLiteral("Microphone"), lost);
    CHECK(text.contains(QStringLiteral("lost")));
    CHECK(text.contains(QStringLiteral("the session is kept")));
    CHECK(text.contains(QStringLiteral("does not answer")));
}

TEST_CASE("a device that never was there is not called lost", "[ui]") {
    const EngineState absent{
        EnginePhase::Lost, Error{ErrorCode::Environment, "no sound output is there", {}}, true};
    const QString text = sourceText(QStringLiteral("Loudspeaker"), absent);
    CHECK_FALSE(text.contains(QStringLiteral("lost")));
    CHECK(text == QStringLiteral("Loudspeaker: no sound output is there"));
}

TEST_CASE("clipping is said before what matters less", "[ui]") {
    MicrophoneState state;
    CHECK(microphoneText(state).isEmpty());
    state.automaticGain = true;
    CHECK(microphoneText(state).contains(QStringLiteral("automatic gain")));
    state.clipped = true;
    CHECK(microphoneText(state).contains(QStringLiteral("clipped")));
}

TEST_CASE("what somebody wrote is shown as it is written, also in a tool tip", "[ui]") {
    CHECK(tipText(QStringLiteral("pin loose & <3 mm")) == QStringLiteral("pin loose & <3 mm"));
    const QString tip = tipText(QStringLiteral("<b>bold</b><img src='http://example.org/x'>"));
    QTextDocument shown;
    shown.setHtml(tip);
    CHECK(shown.toPlainText() == QStringLiteral("<b>bold</b><img src='http://example.org/x'>"));
    CHECK(tipText(QString(1 << 20, QLatin1Char('x'))).size() < 1000);
    CHECK(cellText(QStringLiteral("two\nlines")) == QStringLiteral("two lines"));
    CHECK(cellText(QString(1 << 20, QLatin1Char('x'))).size() == 2001);
}
