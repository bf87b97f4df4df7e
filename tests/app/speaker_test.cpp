#include "app/models/speaker.hpp"
#include "app/text/spoken_text.hpp"

#include <catch2/catch.hpp>
#include <qtestsupport_core.h>

#include <QFile>
#include <QTemporaryDir>

using namespace quillbench;

namespace {

constexpr SampleRate kHeardAt{48'000.0};

/// A voice that writes down what it is given and takes a moment over it.
struct VoiceAtHand {
    VoiceAtHand() {
        QFile program(file());
        REQUIRE(program.open(QIODevice::WriteOnly));
        program.write("#!/bin/sh\nprintf '%s\\n' \"$5\" >> \"$0.said\"\nsleep 0.3\n");
        program.setPermissions(QFile::ReadOwner | QFile::WriteOwner | QFile::ExeOwner);
    }

    [[nodiscard]] QString file() const { return folder.filePath(QStringLiteral("voice")); }

    [[nodiscard]] QString said() const {
        QFile written(file() + QStringLiteral(".said"));
        return written.open(QIODevice::ReadOnly) ? QString::fromUtf8(written.readAll()) : QString();
    }

    QTemporaryDir folder;
};

} // namespace

TEST_CASE("nothing is said while a string sounds, and then the newest alone", "[ui]") {
    VoiceAtHand voice;
    Speaker speaker(voice.file());
    REQUIRE(speaker.available());
    speaker.say(QStringLiteral("not turned on"), false);
    speaker.turn(true);
    speaker.follow(FrameIndex(1000), true);
    speaker.say(QStringLiteral("older"), false);
    speaker.say(QStringLiteral("newer"), false);
    QTest::qWait(600);
    CHECK_FALSE(speaker.speaking());
    CHECK(voice.said().isEmpty());
    speaker.follow(FrameIndex(50'000), false);
    REQUIRE(QTest::qWaitFor([&] { return speaker.speaking(); }, 2000));
    REQUIRE(QTest::qWaitFor([&] { return !speaker.speaking(); }, 2000));
    CHECK(voice.said() == QStringLiteral("newer\n"));
    // Not twice in a row.
    speaker.say(QStringLiteral("newer"), false);
    QTest::qWait(600);
    CHECK(voice.said() == QStringLiteral("newer\n"));
}

TEST_CASE("a danger is said at once, a string may sound or not", "[ui]") {
    VoiceAtHand voice;
    Speaker speaker(voice.file());
    speaker.turn(true);
    speaker.follow(FrameIndex(1000), true);
    speaker.say(QStringLiteral("Stop"), true);
    CHECK(speaker.speaking());
    REQUIRE(QTest::qWaitFor([&] { return !speaker.speaking(); }, 2000));
    CHECK(voice.said() == QStringLiteral("Stop\n"));
}

TEST_CASE("a danger cuts short what is being said", "[ui]") {
    VoiceAtHand voice;
    Speaker speaker(voice.file());
    speaker.turn(true);
    speaker.say(QStringLiteral("a long sentence"), false);
    REQUIRE(
        QTest::qWaitFor([&] { return voice.said().contains(QStringLiteral("sentence")); }, 2000));
    REQUIRE(speaker.speaking());
    speaker.say(QStringLiteral("Stop"), true);
    REQUIRE(QTest::qWaitFor([&] { return voice.said().contains(QStringLiteral("Stop")); }, 2000));
}

TEST_CASE("what is heard while the program speaks, and its echo, is not the instrument", "[ui]") {
    VoiceAtHand voice;
    Speaker speaker(voice.file());
    speaker.turn(true);
    CHECK_FALSE(speaker.drownedOut(FrameIndex(0), kHeardAt));
    speaker.follow(FrameIndex(10'000), false);
    speaker.say(QStringLiteral("Stop"), true);
    REQUIRE(speaker.speaking());
    CHECK_FALSE(speaker.drownedOut(FrameIndex(9'000), kHeardAt)); // plucked before
    CHECK(speaker.drownedOut(FrameIndex(15'000), kHeardAt));
    speaker.follow(FrameIndex(30'000), false);
    REQUIRE(QTest::qWaitFor([&] { return !speaker.speaking(); }, 2000));
    CHECK(speaker.drownedOut(FrameIndex(31'000), kHeardAt));
    CHECK_FALSE(speaker.drownedOut(FrameIndex(60'000), kHeardAt));
    // Another source begins at nothing again.
    speaker.follow(FrameIndex(500), false);
    CHECK_FALSE(speaker.drownedOut(FrameIndex(15'000), kHeardAt));
}

TEST_CASE("without a voice nothing is turned on", "[ui]") {
    Speaker speaker(QStringLiteral("no-such-voice-is-installed"));
    CHECK_FALSE(speaker.available());
    speaker.turn(true);
    CHECK_FALSE(speaker.on());
}

TEST_CASE("signs of the page are read in words", "[ui]") {
    CHECK(spokenText(QStringLiteral("F♯3 of the 8′: up by 3.2 cents, 2°")) ==
          QStringLiteral("F sharp 3 of the 8 foot: up by 3.2 cents, 2 degrees"));
}
