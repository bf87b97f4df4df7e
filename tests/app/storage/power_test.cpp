#include "app/storage/logbook.hpp"
#include "core/support/random.hpp"
#include "tests/app/storage/frail_disk.hpp"
#include "tests/app/storage/logbook_at_hand.hpp"
#include "tests/support/temporary_folder.hpp"

using namespace quillbench;
using namespace quillbench::test;

namespace {

/// Goes on with the session until the power goes; returns how many entries are acknowledged by then.
int keepUntilDark(const std::filesystem::path& file, int from, const FrailDisk& disk) {
    Result<Logbook> logbook = Logbook::open({file, true, FrailDisk::name()});
    if (!logbook || !logbook->begin(inventedInstrument(), sessionNamed("uid-1"))) {
        return from;
    }
    int acknowledged = from;
    while (!disk.dead() && logbook->keep("uid-1", entryAt(acknowledged))) {
        ++acknowledged;
    }
    return acknowledged;
}

} // namespace

TEST_CASE("when the power goes nothing acknowledged is lost, and the session goes on", "[unit]") {
    const TemporaryFolder folder;
    const auto file = folder.path() / "l.sqlite";
    FrailDisk disk;
    Random random(20260211);
    int acknowledged = 0;
    for (int cut = 0; cut < 200; ++cut) {
        disk.cutPowerAfter(static_cast<std::int64_t>(random.uniform() * 120.0));
        acknowledged = keepUntilDark(file, acknowledged, disk);
        disk.settle(static_cast<std::uint64_t>(cut));
        INFO("cut " << cut << ", acknowledged " << acknowledged);
        if (acknowledged == 0) {
            continue;
        }
        const Logbook logbook = opened(file);
        REQUIRE(logbook.damages().empty());
        const auto contents = logbook.contents();
        REQUIRE(contents);
        const int kept = static_cast<int>(contents->readings.size());
        REQUIRE(kept >= acknowledged);
        REQUIRE(kept <= acknowledged + 1); // the one that was being kept may have come through
        REQUIRE(contents->events.size() == contents->readings.size());
        for (int place = 0; place < kept; ++place) {
            REQUIRE(contents->events[static_cast<std::size_t>(place)].content ==
                    entryAt(place).event.content);
        }
        acknowledged = kept;
    }
    CHECK(acknowledged > 200);
    CHECK(disk.undone() > 200);
}

TEST_CASE("the frail disk does forget what is not synced", "[unit]") {
    const TemporaryFolder folder;
    const auto file = folder.path() / "l.sqlite";
    FrailDisk disk;
    fill(*std::make_unique<Logbook>(opened(file)), "uid-1", 1);
    int lost = 0;
    for (std::uint64_t seed = 0; seed < 10; ++seed) {
        std::int64_t before = 0;
        {
            Result<Database> careless =
                Database::open(file, DatabaseAccess::Write, FrailDisk::name());
            REQUIRE(careless);
            REQUIRE(careless->run("PRAGMA synchronous = OFF; PRAGMA wal_autocheckpoint = 0"));
            for (int i = 0; i < 20; ++i) {
                REQUIRE(
                    careless->run("INSERT INTO remark(instrument, text, at_ms, at_offset_min, sum) "
                                  "VALUES(1, 'careless', 0, 0, 0)"));
            }
            before = careless->integer("SELECT count(*) FROM remark").value();
            disk.cutPowerAfter(0);
            CHECK_FALSE(careless->run("INSERT INTO remark(instrument, text, at_ms, at_offset_min, "
                                      "sum) VALUES(1, 'dark', 0, 0, 0)"));
        }
        disk.settle(seed);
        Result<Database> after = Database::open(file, DatabaseAccess::Write, {});
        REQUIRE(after);
        const auto count = after->integer("SELECT count(*) FROM remark");
        lost += !count || *count < before ? 1 : 0;
    }
    CHECK(lost > 5);
}

TEST_CASE("a full disk is said, keeps what was kept, and is written to again when there is room",
          "[unit]") {
    const TemporaryFolder folder;
    FrailDisk disk;
    Random random(5);
    for (int round = 0; round < 30; ++round) {
        const auto file = folder.path() / ("l" + std::to_string(round) + ".sqlite");
        Result<Logbook> logbook = Logbook::open({file, true, FrailDisk::name()});
        REQUIRE(logbook);
        REQUIRE(logbook->begin(inventedInstrument(), sessionNamed("uid-1")));
        disk.setRoom(static_cast<std::int64_t>(random.uniform() * 200000.0));
        int kept = 0;
        Result<void> last;
        while ((last = logbook->keep("uid-1", entryAt(kept)))) {
            ++kept;
        }
        CHECK(isOneLine(last.error().text));
        CHECK(last.error().text.find("the disk is full") != std::string::npos);
        CHECK(logbook->contents()->readings.size() == static_cast<std::size_t>(kept));
        disk.setRoom(-1);
        REQUIRE(logbook->keep("uid-1", entryAt(kept)));
        CHECK(logbook->contents()->readings.size() == static_cast<std::size_t>(kept) + 1);
        CHECK(logbook->inspect().empty());
    }
}
