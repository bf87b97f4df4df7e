#include "app/storage/file_bytes.hpp"
#include "app/storage/logbook.hpp"
#include "core/support/random.hpp"
#include "tests/app/storage/logbook_at_hand.hpp"
#include "tests/support/temporary_folder.hpp"

#include <algorithm>
#include <fstream>
#include <set>

using namespace quillbench;
using namespace quillbench::test;

namespace {

void write(const std::filesystem::path& file, const std::string& bytes) {
    std::ofstream out(file, std::ios::binary | std::ios::trunc);
    out << bytes;
    REQUIRE(out);
}

void forget(const std::filesystem::path& file) {
    for (const char* end : {"", "-wal", "-shm"}) {
        std::filesystem::remove(file.string() + end);
    }
}

/// What each reading says, without the numbers of rows; those put in for lost ones left out.
std::multiset<std::string> readingsOf(const LogbookContents& contents) {
    std::multiset<std::string> readings;
    for (const ReadingRecord& reading : contents.readings) {
        if (reading.warnings != "lost") {
            readings.insert(toText(reading.at) + " " + std::to_string(reading.pitchHz) + " " +
                            std::to_string(reading.deviationCents) + " " + reading.note);
        }
    }
    return readings;
}

} // namespace

TEST_CASE("a thousand damaged bytes: opened whole, or refused, or found; never silent loss",
          "[unit]") {
    const TemporaryFolder folder;
    const auto sound = folder.path() / "sound.sqlite";
    {
        Logbook logbook = opened(sound);
        fill(logbook, "uid-1", 60);
        fill(logbook, "uid-2", 5);
        RemarkRecord remark;
        remark.text = std::string(9000, 'r'); // on overflow pages
        REQUIRE(logbook.remark(inventedInstrument(), "", {}, remark));
    }
    const std::string bytes = bytesOf(sound);
    const std::string whole = fingerprint(opened(sound, false));
    const auto readings = readingsOf(*opened(sound, false).contents());
    const auto file = folder.path() / "damaged.sqlite";
    Random random(1001);
    int unharmed = 0;
    int found = 0;
    int refused = 0;
    int unsaved = 0;
    for (int round = 0; round < 1000; ++round) {
        std::string damaged = bytes;
        const auto at =
            static_cast<std::size_t>(random.uniform() * static_cast<double>(bytes.size()));
        const auto flip = static_cast<unsigned char>(1 + random.uniform() * 254.0);
        damaged[at] = static_cast<char>(static_cast<unsigned char>(damaged[at]) ^ flip);
        forget(file);
        write(file, damaged);
        INFO("byte " << at << " xor " << int{flip});
        {
            const Result<Logbook> logbook = Logbook::open({file, true, {}});
            if (!logbook) {
                REQUIRE(isOneLine(logbook.error().text));
                ++refused;
            } else if (logbook->damages().empty()) {
                // Not a row may be missing or changed.
                REQUIRE(fingerprint(*logbook) == whole);
                ++unharmed;
                continue;
            } else {
                REQUIRE_FALSE(logbook->writable());
                REQUIRE(isOneLine(logbook->trouble()));
                ++found;
            }
        }
        REQUIRE(bytesOf(file) == damaged); // not touched
        if (round % 4 != 0) {
            continue; // repairing writes a file to the disk and waits for it
        }
        const auto repaired = repairLogbook(file, instantAt(round));
        if (!repaired) {
            REQUIRE(isOneLine(repaired.error().text));
            ++unsaved;
            continue;
        }
        const Logbook mended = opened(file);
        REQUIRE(mended.damages().empty());
        REQUIRE(mended.writable());
        // Of all readings at most the one under the byte is lost, and none is made up.
        const auto kept = readingsOf(*mended.contents());
        REQUIRE(kept.size() + 1 >= readings.size());
        REQUIRE(std::includes(readings.begin(), readings.end(), kept.begin(), kept.end()));
        forget(repaired->damaged);
    }
    INFO("unharmed " << unharmed << ", found " << found << ", refused " << refused << ", unsaved "
                     << unsaved);
    CHECK(found > 100);
    CHECK(unsaved < 5);
}

TEST_CASE("a log broken in its middle is not passed over in silence", "[unit]") {
    const TemporaryFolder folder;
    const auto live = folder.path() / "live.sqlite";
    const auto file = folder.path() / "l.sqlite";
    Logbook logbook = opened(live);
    fill(logbook, "uid-1", 20);
    const std::string log = bytesOf(live.string() + "-wal");
    const std::string base = bytesOf(live);
    REQUIRE(log.size() > 20000);
    Random random(7);
    for (int round = 0; round < 100; ++round) {
        std::string damaged = log;
        // Not in the last commit: that cannot be told from one that the power cut short.
        const auto at =
            static_cast<std::size_t>(random.uniform() * static_cast<double>(log.size() - 20000));
        damaged[at] = static_cast<char>(static_cast<unsigned char>(damaged[at]) ^ 0x10U);
        forget(file);
        write(file, base);
        write(file.string() + "-wal", damaged);
        const auto said = Logbook::open({file, true, {}});
        INFO("byte " << at);
        if (said) {
            const bool all = said->contents() && said->contents()->readings.size() == 20;
            CHECK((all || isOneLine(said->trouble())));
        } else {
            CHECK(isOneLine(said.error().text));
        }
    }
}

TEST_CASE("a sound logbook is not repaired", "[unit]") {
    const TemporaryFolder folder;
    const auto file = folder.path() / "l.sqlite";
    fill(*std::make_unique<Logbook>(opened(file)), "uid-1", 3);
    const std::string before = bytesOf(file);
    const auto report = repairLogbook(file, instantAt(0));
    REQUIRE(report);
    CHECK(report->damaged.empty());
    CHECK(bytesOf(file) == before);
}
