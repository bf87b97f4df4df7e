#include "app/formats/temperament_file.hpp"
#include "app/places/logbook/logbook_model.hpp"
#include "app/places/logbook/logbook_text.hpp"
#include "core/temperament/catalogue.hpp"
#include "tests/app/places/logbook/kept_sessions.hpp"

#include <QStringList>
#include <fstream>

using namespace quillbench;
using namespace quillbench::test;

namespace {

/// A model that has read its file.
struct Shelf {
    explicit Shelf(const std::filesystem::path& file) {
        QObject::connect(
            &model, &LogbookModel::told, [this](const QString& text) { told << text; });
        model.setFile(file);
        model.refresh();
        model.finish();
    }

    LogbookModel model;
    QStringList told;
};

} // namespace

TEST_CASE("the sessions are listed, the newest first and opened", "[ui]") {
    const QTemporaryDir folder;
    keepTwoSessions(logbookIn(folder));
    Shelf shelf(logbookIn(folder));
    const LogbookPicture& picture = shelf.model.picture();
    CHECK(picture.readable);
    CHECK(picture.writable);
    CHECK(picture.trouble.isEmpty());
    REQUIRE(picture.sessions.size() == 2);
    CHECK(picture.sessions[0].date > picture.sessions[1].date);
    CHECK(picture.sessions[0].kind == QStringLiteral("first octave"));
    CHECK(picture.sessions[0].pitch == QStringLiteral("415.0 Hz"));
    CHECK(picture.sessions[0].temperament == QStringLiteral("Vallotti"));
    CHECK(picture.sessions[0].strings == QStringLiteral("1 settled"));
    CHECK(picture.sessions[0].source == QStringLiteral("USB microphone (invented)"));
    CHECK(picture.sessions[0].end == QStringLiteral("done"));
    REQUIRE(shelf.model.opened());
    CHECK(shelf.model.opened()->session == picture.sessions[0].session);
}

TEST_CASE("a temperament of one's own is called by its name, not by where its file lies", "[ui]") {
    const QTemporaryDir folder;
    const std::filesystem::path file =
        folder.filePath(QStringLiteral("own-1.quillbench")).toStdString();
    SessionInputs inputs;
    inputs.temperament = file.string();
    const auto shown = [&] { return sessionLine({}, inputs, {}, 0).temperament; };
    CHECK(shown() == QStringLiteral("own-1"));
    TemperamentDescription about = findTemperament("vallotti")->description();
    about.name = "Front room";
    const auto own = findTemperament("vallotti")->described(about);
    REQUIRE(writeTemperamentFile(file, {own, {}}));
    CHECK(shown() == QStringLiteral("Front room"));
}

TEST_CASE("an opened session shows each string before and after, with its ± and window", "[ui]") {
    const QTemporaryDir folder;
    keepTwoSessions(logbookIn(folder));
    Shelf shelf(logbookIn(folder));
    shelf.model.open(1);
    shelf.model.finish();
    REQUIRE(shelf.model.opened());
    CHECK(shelf.model.opened()->session == 1);
    REQUIRE(shelf.model.opened()->readings.size() == 1);
    const ReadingLine& line = shelf.model.opened()->readings[0];
    CHECK(line.key == QStringLiteral("A3"));
    CHECK(line.before == QStringLiteral("−12.5"));
    CHECK(line.after == QStringLiteral("+0.1"));
    CHECK(line.uncertainty == QStringLiteral("± 0.1"));
    CHECK(line.window == QStringLiteral("3 × 2.4 s"));
    CHECK(shelf.model.tendencies().sentence.startsWith(QStringLiteral("Nothing is known yet")));
}

TEST_CASE("remarks, the air and a new string are written down for the opened session", "[ui]") {
    const QTemporaryDir folder;
    keepTwoSessions(logbookIn(folder));
    Shelf shelf(logbookIn(folder));
    shelf.model.remark(StringName{"8", 28, "A3"}, QStringLiteral("pin loose"));
    shelf.model.climate(19.5, std::nullopt);
    shelf.model.stringReplaced(
        StringName{"4", 3, "Ab1"}, 0.24, QStringLiteral("iron"), QStringLiteral("broken"));
    shelf.model.finish();
    CHECK(shelf.told.size() == 3);
    REQUIRE(shelf.model.opened());
    const auto& diary = shelf.model.opened()->diary;
    REQUIRE(diary.size() == 3);
    CHECK(diary[0].about == QStringLiteral("8:A3"));
    CHECK(diary[0].text == QStringLiteral("pin loose"));
    CHECK(diary[1].text == QStringLiteral("19.5 °C"));
    CHECK(diary[2].about == QStringLiteral("4:Ab1"));
    CHECK(diary[2].text == QStringLiteral("0.240 mm, iron, broken"));
    const auto logbook = Logbook::open({logbookIn(folder), false, {}});
    REQUIRE(logbook);
    const auto contents = logbook->contents();
    REQUIRE(contents);
    CHECK(contents->remarks[0].session == 2);
    CHECK(contents->descriptions.size() == 1); // no second one of the same instrument
}

TEST_CASE("what is exported as JSON or CSV comes back into an empty logbook", "[ui]") {
    const QTemporaryDir folder;
    keepTwoSessions(logbookIn(folder));
    Shelf shelf(logbookIn(folder));
    const std::filesystem::path base = folder.path().toStdString();
    shelf.model.exportJson(base / "out.json");
    shelf.model.exportCsv(base / "tables");
    shelf.model.finish();
    for (const char* from : {"out.json", "tables"}) {
        const std::filesystem::path other = base / (std::string(from) + ".sqlite");
        REQUIRE(Logbook::open({other, true, {}}));
        Shelf empty(other);
        CHECK(empty.model.picture().sessions.empty());
        empty.model.importFrom(base / from);
        empty.model.finish();
        REQUIRE(empty.told.size() == 1);
        CHECK(empty.told[0].contains(QStringLiteral("2 sessions new, 0 there already")));
        CHECK(empty.model.picture().sessions.size() == 2);
    }
}

TEST_CASE("a backup is put back, and what was there is kept beside it", "[ui]") {
    const QTemporaryDir folder;
    const std::filesystem::path base = folder.path().toStdString();
    keepTwoSessions(logbookIn(folder));
    Shelf shelf(logbookIn(folder));
    shelf.model.backUp(base / "backup.sqlite");
    shelf.model.verify();
    shelf.model.remark(std::nullopt, QStringLiteral("after the backup"));
    int restoring = 0;
    int restored = 0;
    QObject::connect(&shelf.model, &LogbookModel::restoring, [&] { ++restoring; });
    QObject::connect(&shelf.model, &LogbookModel::restored, [&] { ++restored; });
    shelf.model.finish();
    CHECK(shelf.told.contains(QStringLiteral("Every row is as it was kept.")));
    shelf.model.restore(base / "backup.sqlite");
    shelf.model.finish();
    CHECK(restoring == 1);
    CHECK(restored == 1);
    CHECK(shelf.told.last().contains(QStringLiteral("what was there is now")));
    REQUIRE(shelf.model.opened());
    CHECK(shelf.model.opened()->diary.empty());
}

TEST_CASE("a file that is none, of a newer version or missing is said in one line", "[ui]") {
    const QTemporaryDir folder;
    {
        Shelf missing(logbookIn(folder));
        CHECK_FALSE(missing.model.picture().readable);
        CHECK_FALSE(missing.model.picture().trouble.isEmpty());
    }
    std::ofstream(logbookIn(folder)) << std::string(4096, 'x');
    Shelf other(logbookIn(folder));
    CHECK_FALSE(other.model.picture().readable);
    CHECK(other.model.picture().trouble.contains(QStringLiteral("logbook.sqlite")));
    CHECK_FALSE(other.model.picture().trouble.contains(QLatin1Char('\n')));
    CHECK_FALSE(other.model.opened());
}
