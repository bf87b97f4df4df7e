#include "app/places/action/history_text.hpp"
#include "app/places/action/voice_store.hpp"

#include <catch2/catch.hpp>

#include <QFile>
#include <QTemporaryDir>

using namespace quillbench;

namespace {

StoredPass keptOn(const QDate& day, std::size_t reg, double displacement) {
    StoredPass stored;
    stored.reg = reg;
    stored.at = day;
    stored.pass.day = dayNumber(day);
    for (std::size_t key = 0; key < 20; ++key) {
        stored.pass.keys.push_back(
            {key, -30.0, 2.0, 3.0, 0.1, 0.5, displacement + 0.01 * static_cast<double>(key % 3)});
    }
    stored.pass.keys.back().displacement.reset();
    return stored;
}

} // namespace

TEST_CASE("passes of a register are there again on another day, in order", "[ui][action]") {
    const QTemporaryDir folder;
    VoiceStore store(folder.path());
    const QString instrument = QStringLiteral("invented/one.two");
    REQUIRE(store.add(instrument, keptOn(QDate(2026, 9, 1), 0, 8.0)));
    REQUIRE(store.add(instrument, keptOn(QDate(2026, 5, 1), 0, 9.0)));
    REQUIRE(store.add(instrument, keptOn(QDate(2026, 5, 1), 1, 9.0)));
    REQUIRE(store.add(instrument, keptOn(QDate(2026, 9, 1), 0, 7.0))); // the same day: in its place
    const auto passes = VoiceStore(folder.path()).read(instrument);
    REQUIRE(passes);
    REQUIRE(passes->size() == 3);
    CHECK(passes->front().at == QDate(2026, 5, 1));
    const StoredPass& last = passes->back();
    CHECK(last.at == QDate(2026, 9, 1));
    CHECK(last.pass.day - passes->front().pass.day == 123.0); // May, June, July, August
    REQUIRE(last.pass.keys.size() == 20);
    REQUIRE(last.pass.keys[1].displacement);
    CHECK(*last.pass.keys[1].displacement == 7.01);
    CHECK_FALSE(last.pass.keys[19].displacement);
    CHECK(last.pass.keys[4].strengthU == 0.5);
    CHECK(VoiceStore(folder.path()).read(QStringLiteral("another"))->empty());
}

TEST_CASE("a file of passes that cannot be read is said and left as it is", "[ui][action]") {
    const QTemporaryDir folder;
    VoiceStore store(folder.path());
    const QString instrument = QStringLiteral("one");
    for (const char* text : {"{",
                             "{\"schema\":1,\"kind\":\"worksheet\"}",
                             "{\"schema\":9,\"kind\":\"voices\",\"passes\":[]}",
                             "{\"schema\":1,\"kind\":\"voices\",\"passes\":[{\"register\":-3}]}"}) {
        QFile file(store.fileOf(instrument));
        REQUIRE(file.open(QIODevice::WriteOnly));
        file.write(text);
        file.close();
        const auto passes = store.read(instrument);
        REQUIRE_FALSE(passes);
        CHECK(passes.error().text.find("one.voices.json") != std::string::npos);
        CHECK_FALSE(store.add(instrument, keptOn(QDate(2026, 9, 1), 0, 8.0)));
        REQUIRE(file.open(QIODevice::ReadOnly));
        CHECK(file.readAll() == QByteArray(text));
        file.close();
    }
}

TEST_CASE("without a folder no pass is kept", "[ui][action]") {
    VoiceStore store;
    CHECK_FALSE(store.keeps());
    CHECK(store.add(QStringLiteral("one"), keptOn(QDate(2026, 9, 1), 0, 8.0)));
    CHECK(store.read(QStringLiteral("one"))->empty());
}
