#include "app/storage/logbook.hpp"
#include "app/storage/migrations.hpp"
#include "tests/app/storage/logbook_at_hand.hpp"
#include "tests/support/temporary_folder.hpp"

#include <sys/wait.h>
#include <unistd.h>

#include <fstream>
#include <limits>
#include <set>
#include <sstream>

using namespace quillbench;
using namespace quillbench::test;

TEST_CASE("what is kept is there again, in the order in which it was kept", "[unit]") {
    const TemporaryFolder folder;
    const auto file = folder.path() / "a folder that is not there yet" / "log book.sqlite";
    std::string before;
    {
        Logbook logbook = opened(file);
        CHECK(logbook.writable());
        CHECK(logbook.trouble().empty());
        fill(logbook, "uid-1", 13);
        before = fingerprint(logbook);
        CHECK(logbook.inspect().empty());
    }
    const Logbook again = opened(file, false);
    CHECK_FALSE(again.writable());
    CHECK(fingerprint(again) == before);
    const auto saved = again.unfinished("first-octave");
    REQUIRE(saved);
    REQUIRE(*saved);
    const SavedSession& session = **saved;
    CHECK(session.session.uid == "uid-1");
    CHECK(session.instrument.key == "test-spinet");
    CHECK(session.description.content == inventedInstrument().content);
    REQUIRE(session.events.size() == 13);
    CHECK(session.events[12].place == 12);
    CHECK(session.events[12].content == entryAt(12).event.content);
    const auto contents = again.contents();
    REQUIRE(contents);
    REQUIRE(contents->readings.size() == 13);
    CHECK(contents->readings[4].deviationCents == readingOf(4).deviationCents);
    CHECK(contents->readings[4].at.offsetMinutes == 780);
    CHECK(contents->steps[4].reading == contents->readings[4].seq);
    CHECK(contents->remarks[0].text == "false beat, pin loose");
}

TEST_CASE("the same again keeps nothing twice, another event in its place is refused", "[unit]") {
    const TemporaryFolder folder;
    Logbook logbook = opened(folder.path() / "l.sqlite");
    fill(logbook, "uid-1", 3);
    const std::string before = fingerprint(logbook);
    CHECK(logbook.begin(inventedInstrument(), sessionNamed("uid-1")));
    CHECK(logbook.keep("uid-1", entryAt(1)));
    CHECK(fingerprint(logbook) == before);
    SessionEntry other = entryAt(1);
    other.event.content = "{}";
    const auto refused = logbook.keep("uid-1", other);
    REQUIRE_FALSE(refused);
    CHECK(refused.error().text.find("another window") != std::string::npos);
    CHECK(fingerprint(logbook) == before);
    CHECK_FALSE(logbook.keep("no-such", entryAt(4)));
    REQUIRE(logbook.end("uid-1", "done", instantAt(9)));
    REQUIRE(logbook.end("uid-1", "left", instantAt(10)));
    const auto saved = logbook.unfinished("first-octave");
    REQUIRE(saved);
    CHECK_FALSE(*saved);
}

TEST_CASE("an instrument that changed is described anew, its strings stay the same", "[unit]") {
    const TemporaryFolder folder;
    Logbook logbook = opened(folder.path() / "l.sqlite");
    fill(logbook, "uid-1", 3);
    InstrumentState changed = inventedInstrument();
    changed.content = R"({"schema":1,"id":"test-spinet","restrung":true})";
    REQUIRE(logbook.begin(changed, sessionNamed("uid-2")));
    REQUIRE(logbook.keep("uid-2", entryAt(0)));
    const auto contents = logbook.contents();
    REQUIRE(contents);
    CHECK(contents->instruments.size() == 1);
    CHECK(contents->descriptions.size() == 2);
    CHECK(contents->sessions[1].description == 2);
    CHECK(contents->readings[3].string == contents->readings[0].string);
}

TEST_CASE("what cannot be kept is refused by name, and nothing of it stays", "[unit]") {
    const TemporaryFolder folder;
    Logbook logbook = opened(folder.path() / "l.sqlite");
    fill(logbook, "uid-1", 2);
    const std::string before = fingerprint(logbook);
    SessionEntry entry = entryAt(2);
    const auto refusal = [&] {
        const auto kept = logbook.keep("uid-1", entry);
        REQUIRE_FALSE(kept);
        CHECK(isOneLine(kept.error().text));
        return kept.error().text;
    };
    entry.steps[0].reading->reading.pitchHz = std::numeric_limits<double>::quiet_NaN();
    CHECK(refusal() == "reading.pitch_hz is not finite: give a number");
    entry = entryAt(2);
    entry.event.content = std::string("zero\0byte", 9);
    CHECK(refusal() == "event.content is no text from byte 4 on: give UTF-8 without zero bytes");
    entry.event.content = "\xC0\xAF"; // an overlong slash
    CHECK(refusal().find("no text from byte 0") != std::string::npos);
    entry.event.content = "\xED\xA0\x80"; // half a surrogate
    CHECK(refusal().find("no text from byte 0") != std::string::npos);
    entry.event.content = std::string(kLongestText + 1, 'x');
    CHECK(refusal().find("1048577 bytes long") != std::string::npos);
    entry.event.content = "{}";
    entry.event.at.milliseconds = kLatestInstant + 1;
    CHECK(refusal().find("event.at is no time") != std::string::npos);
    CHECK(fingerprint(logbook) == before);
}

TEST_CASE("hostile texts come back as they were", "[unit]") {
    const TemporaryFolder folder;
    const std::string hostile =
        GENERATE(std::string("'); DROP TABLE reading; --"),
                 std::string("\"quotes\"\nand\r\nlines\ttabs"),
                 std::string("<b onmouseover=alert(1)>HTML</b>"),
                 std::string("=cmd|' /C calc'!A0"),
                 std::string("emoji \xF0\x9F\xAA\xB6 and \xE2\x80\xAE backwards"),
                 std::string(kLongestText, 'x'),
                 std::string());
    Logbook logbook = opened(folder.path() / "l.sqlite");
    RemarkRecord remark;
    remark.text = hostile;
    REQUIRE(logbook.remark(inventedInstrument(), "", StringName{hostile, 1, hostile}, remark));
    const auto contents = logbook.contents();
    REQUIRE(contents);
    CHECK(contents->remarks[0].text == hostile);
    CHECK(contents->strings[0].choir == hostile);
    CHECK(logbook.inspect().empty());
    // Found again byte by byte, over overflow pages too.
    CHECK(logbook.backUp(folder.path() / "copy.sqlite"));
}

TEST_CASE("another program's rows are seen, and two write by turns", "[unit]") {
    const TemporaryFolder folder;
    const auto file = folder.path() / "l.sqlite";
    Logbook first = opened(file);
    Logbook second = opened(file);
    REQUIRE(first.begin(inventedInstrument(), sessionNamed("uid-1")));
    REQUIRE(second.begin(inventedInstrument(), sessionNamed("uid-2")));
    for (int place = 0; place < 20; ++place) {
        REQUIRE(first.keep("uid-1", entryAt(place)));
        REQUIRE(second.keep("uid-2", entryAt(place)));
    }
    CHECK(fingerprint(first) == fingerprint(second));
    CHECK(first.inspect().empty());
}

TEST_CASE("a logbook that another program holds for long is said to be busy", "[unit]") {
    const TemporaryFolder folder;
    const auto file = folder.path() / "l.sqlite";
    Logbook logbook = opened(file);
    fill(logbook, "uid-1", 1);
    Result<Database> other = Database::open(file, DatabaseAccess::Write, {});
    REQUIRE(other);
    REQUIRE(other->run("BEGIN IMMEDIATE"));
    const auto kept = logbook.keep("uid-1", entryAt(1));
    REQUIRE_FALSE(kept);
    CHECK(kept.error().code == ErrorCode::Environment);
    CHECK(kept.error().text.find("another program is writing") != std::string::npos);
    REQUIRE(other->run("ROLLBACK"));
    CHECK(logbook.keep("uid-1", entryAt(1)));
}

TEST_CASE("files that are no logbook are refused in one line and let alone", "[unit]") {
    const TemporaryFolder folder;
    const auto file = folder.path() / "l.sqlite";
    const auto refusal = [&] {
        const auto opened = Logbook::open({file, true, {}});
        REQUIRE_FALSE(opened);
        CHECK(isOneLine(opened.error().text));
        CHECK(opened.error().text.find(file.string()) == 0);
        return opened.error().text;
    };
    SECTION("a text") {
        std::ofstream(file) << "Dear diary, today the tenor was flat again. "
                            << std::string(5000, '.');
        CHECK(refusal().find("no logbook") != std::string::npos);
    }
    SECTION("another program's database") {
        Result<Database> other = Database::open(file, DatabaseAccess::Write, {});
        REQUIRE(other);
        REQUIRE(other->run("CREATE TABLE recipes(name)"));
        CHECK(refusal().find("not a logbook") != std::string::npos);
    }
    SECTION("a folder") {
        std::filesystem::create_directory(file);
        CHECK(refusal().find("a folder") != std::string::npos);
    }
    SECTION("one from the future") {
        fill(*std::make_unique<Logbook>(opened(file)), "uid-1", 2);
        Result<Database> future = Database::open(file, DatabaseAccess::Write, {});
        REQUIRE(future);
        REQUIRE(future->run("CREATE TABLE of_the_future(x); PRAGMA user_version = 999"));
        const std::string text = refusal();
        CHECK(text.find("newer version") != std::string::npos);
        CHECK(text.find("schema 999") != std::string::npos);
        // Nor is it "repaired" into an older one.
        CHECK_FALSE(repairLogbook(file, instantAt(0)));
        CHECK(future->integer("SELECT count(*) FROM reading").value() == 2);
    }
    SECTION("one whose head was damaged") {
        fill(*std::make_unique<Logbook>(opened(file)), "uid-1", 2);
        const char* damage = GENERATE("PRAGMA user_version = 258",
                                      "PRAGMA user_version = 1",
                                      "PRAGMA user_version = 0",
                                      "PRAGMA application_id = 7");
        REQUIRE(Database::open(file, DatabaseAccess::Write, {})->run(damage));
        CHECK(refusal().find("log repair") != std::string::npos);
        const auto repaired = repairLogbook(file, instantAt(0));
        REQUIRE(repaired);
        CHECK(repaired->readings == 2);
        CHECK(opened(file).damages().empty());
    }
    SECTION("none") {
        const auto opened = Logbook::open({file, false, {}});
        REQUIRE_FALSE(opened);
        CHECK(opened.error().text.find("no such logbook") != std::string::npos);
        CHECK_FALSE(std::filesystem::exists(file));
    }
}

TEST_CASE("an older logbook comes up to the newest schema with every row", "[unit]") {
    const TemporaryFolder folder;
    const auto file = folder.path() / "l.sqlite";
    for (std::int64_t schema = 1; schema < newestSchema(); ++schema) {
        std::filesystem::remove(file);
        std::ifstream in(std::string(QUILLBENCH_GOLDEN_DIR) + "/logbook_schema_" +
                         std::to_string(schema) + ".sql");
        std::stringstream dump;
        dump << in.rdbuf();
        INFO("schema " << schema << ": a missing golden file fails");
        REQUIRE(in);
        {
            Result<Database> old = Database::open(file, DatabaseAccess::Write, {});
            REQUIRE(old);
            REQUIRE(old->run(dump.str()));
        }
        std::string readOnly;
        {
            // Read without being changed ...
            const Logbook looked = opened(file, false);
            CHECK(looked.damages().empty());
            readOnly = fingerprint(looked);
            const auto old = Database::open(file, DatabaseAccess::Read, {});
            CHECK(old->integer("PRAGMA user_version").value() == schema);
        }
        // ... and brought up to date when it is written to.
        Logbook logbook = opened(file);
        INFO(logbook.trouble());
        CHECK(logbook.writable());
        CHECK(fingerprint(logbook) == readOnly);
        const auto contents = logbook.contents();
        REQUIRE(contents);
        CHECK(contents->readings.size() == 3);
        CHECK(contents->readings[2].deviationCents == readingOf(2).deviationCents);
        fill(logbook, "uid-new", 2);
        CHECK(logbook.inspect().empty());
    }
}

TEST_CASE("a backup is one file with everything in it, and comes back", "[unit]") {
    const TemporaryFolder folder;
    const auto file = folder.path() / "l.sqlite";
    const auto backup = folder.path() / "backup of May.sqlite";
    std::string before;
    {
        Logbook logbook = opened(file);
        fill(logbook, "uid-1", 5);
        before = fingerprint(logbook);
        REQUIRE(logbook.backUp(backup));
        CHECK_FALSE(std::filesystem::exists(backup.string() + "-wal"));
        const auto again = logbook.backUp(backup);
        REQUIRE_FALSE(again);
        CHECK(again.error().text.find("is there already") != std::string::npos);
        fill(logbook, "uid-2", 5);
    }
    const auto aside = restoreLogbook(file, backup, instantAt(0));
    REQUIRE(aside);
    CHECK(fingerprint(opened(file)) == before);
    CHECK(opened(*aside, false).contents()->sessions.size() == 2);
    CHECK(fingerprint(opened(backup, false)) == before);
    std::ofstream(folder.path() / "none.sqlite") << std::string(3000, 'x');
    CHECK_FALSE(restoreLogbook(file, folder.path() / "none.sqlite", instantAt(1)));
    CHECK(fingerprint(opened(file)) == before);
}

TEST_CASE("a zero below zero is kept like any other zero", "[unit]") {
    // SQLite has no negative zero; a string exactly on its target may read so.
    const TemporaryFolder folder;
    const auto file = folder.path() / "l.sqlite";
    Logbook logbook = opened(file);
    REQUIRE(logbook.begin(inventedInstrument(), sessionNamed("uid-1")));
    SessionEntry entry = entryAt(0);
    entry.steps[0].reading->reading.deviationCents = -0.0;
    entry.steps[0].reading->reading.startCents = -0.0;
    REQUIRE(logbook.keep("uid-1", entry));
    CHECK(logbook.inspect().empty());
    auto offered = logbook.contents();
    REQUIRE(offered);
    REQUIRE(offered->readings.size() == 1);
    offered->readings[0].deviationCents = -0.0;
    const auto merged = logbook.merge(*offered);
    REQUIRE(merged);
    CHECK(merged->rows == 0);
}

TEST_CASE("two logbooks become one, and nothing comes twice", "[unit]") {
    const TemporaryFolder folder;
    Logbook laptop = opened(folder.path() / "laptop.sqlite");
    Logbook workshop = opened(folder.path() / "workshop.sqlite");
    fill(laptop, "uid-1", 4);
    const auto early = laptop.contents();
    REQUIRE(early);
    REQUIRE(laptop.keep("uid-1", entryAt(4)));
    fill(workshop, "uid-2", 3);
    const auto contents = laptop.contents();
    REQUIRE(contents);
    REQUIRE(workshop.merge(*early));
    const auto merged = workshop.merge(*contents);
    REQUIRE(merged);
    CHECK(merged->sessions == 0);
    CHECK(merged->sessionsThere == 1);
    CHECK(merged->rows == 4); // what came later: an event, its string, reading and step
    const auto again = workshop.merge(*contents);
    REQUIRE(again);
    CHECK(again->rows == 0);
    const auto all = workshop.contents();
    REQUIRE(all);
    CHECK(all->instruments.size() == 1);
    CHECK(all->sessions.size() == 2);
    CHECK(all->readings.size() == 8);
    CHECK(workshop.inspect().empty());

    Logbook empty = opened(folder.path() / "empty.sqlite");
    REQUIRE(empty.merge(*all));
    CHECK(fingerprint(empty) == fingerprint(workshop));

    LogbookContents broken = *all;
    broken.strings.clear();
    Logbook other = opened(folder.path() / "other.sqlite");
    const auto refused = other.merge(broken);
    REQUIRE_FALSE(refused);
    CHECK(refused.error().text.find("refers to a row that is missing") != std::string::npos);
    CHECK(other.contents()->instruments.empty());

    LogbookContents otherwise = *all;
    otherwise.events[0].content = "{}";
    CHECK_FALSE(workshop.merge(otherwise));
}

TEST_CASE("a logbook in a folder that cannot be written to is read all the same", "[unit]") {
    const TemporaryFolder folder;
    std::filesystem::permissions(folder.path(), std::filesystem::perms(0755));
    const auto file = folder.path() / "l.sqlite";
    fill(*std::make_unique<Logbook>(opened(file)), "uid-1", 4);
    std::filesystem::permissions(file, std::filesystem::perms(0644));
    std::filesystem::permissions(folder.path(), std::filesystem::perms(0555));
    // The superuser may write anywhere: a child without that right looks.
    const pid_t child = ::fork();
    if (child == 0) {
        constexpr uid_t kNobody = 65534;
        const bool ordinary = ::geteuid() != 0 || ::setresuid(kNobody, kNobody, kNobody) == 0;
        const auto logbook = Logbook::open({file, true, {}});
        const bool good = ordinary && logbook && !logbook->writable() &&
                          isOneLine(logbook->trouble()) && logbook->contents() &&
                          logbook->contents()->readings.size() == 4 &&
                          !std::filesystem::exists(file.string() + "-shm");
        ::_exit(good ? 0 : 1);
    }
    int status = 0;
    REQUIRE(::waitpid(child, &status, 0) == child);
    CHECK(WIFEXITED(status));
    CHECK(WEXITSTATUS(status) == 0);
    std::filesystem::permissions(folder.path(), std::filesystem::perms(0755));
}

TEST_CASE("the checksum is the one of the standard", "[unit]") {
    // ISO/IEC 3309, check value of the digits 1 to 9: CBF43926 (value from memory).
    CyclicSum sum;
    sum.add(std::string_view("123456789"));
    CHECK(sum.value() == 0xCBF43926U);
    // Fields do not run into each other, and a missing value is not an empty one.
    RemarkRecord a;
    RemarkRecord b;
    b.session = 0;
    CHECK(rowSum(a) != rowSum(b));
}

TEST_CASE("session names are unlike each other", "[unit]") {
    std::set<std::string> seen;
    for (int i = 0; i < 1000; ++i) {
        const std::string uid = newUid();
        CHECK(uid.size() == 32);
        seen.insert(uid);
    }
    CHECK(seen.size() == 1000);
}
