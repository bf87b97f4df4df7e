#include "app/storage/logbook.hpp"
#include "tests/app/storage/sample_entries.hpp"
#include "tests/support/command_line.hpp"
#include "tests/support/temporary_folder.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <fstream>

using namespace quillbench;
using namespace quillbench::test;
using Json = nlohmann::json;

namespace {

/// A logbook with two sessions, the first ended.
std::filesystem::path sample(const TemporaryFolder& folder) {
    auto file = folder.path() / "log book.sqlite";
    Result<Logbook> logbook = Logbook::open({file, true, {}});
    REQUIRE(logbook);
    for (const char* uid : {"uid-1", "uid-2"}) {
        REQUIRE(logbook->begin(inventedInstrument(), sessionNamed(uid)));
        for (int place = 0; place < 4; ++place) {
            REQUIRE(logbook->keep(uid, entryAt(place)));
        }
    }
    SessionEntry slipped;
    slipped.event.place = 4;
    slipped.event.content = "{}";
    slipped.steps.push_back({StepRecord{0, 0, 0, 2, {}, {}, "working", "slipped"}, {}, {}});
    REQUIRE(logbook->keep("uid-2", slipped));
    REQUIRE(logbook->end("uid-1", "done", instantAt(50)));
    return file;
}

CommandLineRun log(const std::string& what, const std::filesystem::path& file) {
    return runCommandLine("log " + what + " --logbook '" + file.string() + "'");
}

Json answer(const CommandLineRun& run) {
    INFO(run.err);
    REQUIRE(run.exitCode == 0);
    REQUIRE(std::count(run.out.begin(), run.out.end(), '\n') == 1);
    Json json = Json::parse(run.out);
    CHECK(json["schema"] == 1);
    CHECK(json["status"] == "ok");
    CHECK(json["id"].is_null());
    return json;
}

void checkRefused(const CommandLineRun& run, int exitCode, const std::string& part) {
    INFO(run.err);
    CHECK(run.exitCode == exitCode);
    CHECK(run.out.empty());
    CHECK(std::count(run.err.begin(), run.err.end(), '\n') == 1);
    CHECK(run.err.find(part) != std::string::npos);
}

} // namespace

TEST_CASE("log lists the sessions and shows one", "[cli]") {
    const TemporaryFolder folder;
    const auto file = sample(folder);
    const Json list = answer(log("list --json", file));
    CHECK(list["kind"] == "sessions");
    REQUIRE(list["sessions"].size() == 2);
    CHECK(list["sessions"][0]["ended"] == "done");
    CHECK(list["sessions"][0]["settled"] == 4);
    CHECK(list["sessions"][1]["ended"].is_null());
    CHECK(list["sessions"][1]["settled"] == 3);
    CHECK(list["sessions"][0]["at"] == "2026-09-21T14:13:20.000Z");
    CHECK(list["sessions"][0]["at_offset_min"] == 780);
    const Json last = answer(log("show --json", file));
    CHECK(last["session"] == 2);
    CHECK(last["readings"].size() == 3); // the slipped one holds no more
    const Json first = answer(log("show 1 --json", file));
    REQUIRE(first["readings"].size() == 4);
    CHECK(first["readings"][3]["deviation_cents"].get<double>() == Approx(0.03));
    CHECK(first["readings"][3]["pitch_hz_u"].get<double>() == Approx(0.004));
    const auto table = log("list", file);
    CHECK(table.exitCode == 0);
    CHECK(std::count(table.out.begin(), table.out.end(), '\n') == 3);
    CHECK(table.out.find("2026-09-22 03:13") != std::string::npos);
    checkRefused(log("show 9", file), 2, "there is no session 9");
}

TEST_CASE("log tells what was practised, and an import carries it", "[cli]") {
    const TemporaryFolder folder;
    const auto file = sample(folder);
    CHECK(answer(log("list --json", file))["practised"].is_null());
    const auto none = log("show --practise --json", file);
    CHECK(none.exitCode == 4);
    CHECK(Json::parse(none.out)["status"] == "nothing");
    const PractiseRecord counted = fifthCounted(instantAt(0));
    PractiseRecord set = counted;
    set.kind = "bring-together";
    set.interval = "unison";
    set.source = "own";
    set.answer = "set";
    set.leftBeats = 0.31;
    set.leftCents = 0.75;
    set.path = "from-above settled";
    set.at = instantAt(3600);
    {
        Result<Logbook> logbook = Logbook::open({file, true, {}});
        REQUIRE(logbook);
        REQUIRE(logbook->practised(counted));
        REQUIRE(logbook->practised(set));
    }
    const Json list = answer(log("list --json", file));
    CHECK(list["practised"]["exercises"] == 2);
    CHECK(list["practised"]["first_at"] == "2026-09-21T14:13:20.000Z");
    CHECK(list["practised"]["last_at"] == "2026-09-21T15:13:20.000Z");
    const Json shown = answer(log("show --practise --json", file));
    CHECK(shown["kind"] == "practise");
    REQUIRE(shown["exercises"].size() == 2);
    CHECK(shown["exercises"][0]["exercise"] == "count");
    CHECK(shown["exercises"][0]["left_beats"].is_null());
    CHECK(shown["exercises"][0]["beat_hz"].get<double>() == Approx(-1.25));
    CHECK(shown["exercises"][1]["source"] == "own");
    CHECK(shown["exercises"][1]["left_cents"].get<double>() == Approx(0.75));
    const auto table = log("show --practise", file);
    CHECK(table.exitCode == 0);
    CHECK(std::count(table.out.begin(), table.out.end(), '\n') == 3);
    CHECK(table.out.find("from-above settled") != std::string::npos);
    CHECK(log("list", file)
              .out.find("practised: 2 exercises, 2026-09-22 03:13 to 2026-09-22 "
                        "04:13") != std::string::npos);
    checkRefused(log("show 1 --practise", file), 2, "--practise");
    const std::string json = (folder.path() / "all.jsonl").string();
    const auto other = folder.path() / "other.sqlite";
    REQUIRE(log("export --json --out '" + json + "'", file).exitCode == 0);
    REQUIRE(log("import '" + json + "'", other).exitCode == 0);
    CHECK(answer(log("show --practise --json", other)) == shown);
}

TEST_CASE("an exported logbook imported elsewhere is the same logbook", "[cli]") {
    const TemporaryFolder folder;
    const auto file = sample(folder);
    const auto exported = log("export --json", file);
    REQUIRE(exported.exitCode == 0);
    const std::string json = (folder.path() / "all of it.jsonl").string();
    REQUIRE(log("export --json --out '" + json + "'", file).exitCode == 0);
    const std::string csv = (folder.path() / "tables of it").string();
    REQUIRE(log("export --csv '" + csv + "'", file).exitCode == 0);
    for (const std::string& from : {json, csv}) {
        const auto other = folder.path() / "other.sqlite";
        REQUIRE(log("import '" + from + "'", other).exitCode == 0);
        CHECK(log("export --json", other).out == exported.out);
        const auto again = log("import '" + from + "'", other);
        CHECK(again.exitCode == 0);
        CHECK(again.err.find("0 rows taken over; 0 sessions new, 2 there already") !=
              std::string::npos);
        CHECK(log("export --json", other).out == exported.out);
        std::filesystem::remove(other);
    }
    checkRefused(log("export", file), 2, "--json");
    checkRefused(
        log("import '" + (folder.path() / "none").string() + "'", file), 3, "no such file");
    std::ofstream(folder.path() / "half.jsonl") << exported.out.substr(0, exported.out.size() / 2);
    checkRefused(log("import '" + (folder.path() / "half.jsonl").string() + "'",
                     folder.path() / "half.sqlite"),
                 3,
                 "half.jsonl: line ");
}

TEST_CASE("remarks, climate and new strings are entered by hand", "[cli]") {
    const TemporaryFolder folder;
    const auto file = folder.path() / "l.sqlite";
    REQUIRE(log("remark 'pin loose' --instrument double-8-8-4 --string 8b:Eb3", file).exitCode ==
            0);
    REQUIRE(log("climate --instrument spinet --temperature 19.5 --humidity 52", file).exitCode ==
            0);
    REQUIRE(log("replaced 4:C3 --instrument double-8-8-4 --diameter-mm 0.2 --reason broken", file)
                .exitCode == 0);
    const auto logbook = Logbook::open({file, false, {}});
    REQUIRE(logbook);
    const auto contents = logbook->contents();
    REQUIRE(contents);
    CHECK(contents->instruments.size() == 2);
    REQUIRE(contents->strings.size() == 2);
    CHECK(contents->strings[0].choir == "8b");
    CHECK(contents->remarks[0].text == "pin loose");
    CHECK(contents->climates[0].humidityPercent == 52.0);
    CHECK(contents->stringChanges[0].diameterMm == 0.2);
    checkRefused(log("remark x --instrument double-8-8-4 --string 8:Z3", file), 2, "8:Z3");
    checkRefused(log("climate --instrument spinet", file), 2, "--temperature");
    checkRefused(log("remark x --instrument no-such-thing", file), 3, "no-such-thing");
}

TEST_CASE("a logbook is verified, backed up, restored and repaired", "[cli]") {
    const TemporaryFolder folder;
    const auto file = sample(folder);
    const std::string backup = (folder.path() / "backup.sqlite").string();
    CHECK(answer(log("verify --json", file))["damages"].empty());
    REQUIRE(log("backup '" + backup + "'", file).exitCode == 0);
    checkRefused(log("backup '" + backup + "'", file), 2, "is there already");
    const std::string before = log("export --json", file).out;

    std::fstream damaged(file, std::ios::in | std::ios::out | std::ios::binary);
    std::string bytes((std::istreambuf_iterator<char>(damaged)), std::istreambuf_iterator<char>());
    const auto at = bytes.find("\"pluck\":2");
    REQUIRE(at != std::string::npos);
    damaged.clear();
    damaged.seekp(static_cast<std::streamoff>(at) + 8);
    damaged << '7';
    damaged.close();

    const auto verified = log("verify --json", file);
    CHECK(verified.exitCode == 3);
    CHECK(Json::parse(verified.out)["status"] == "error");
    CHECK(verified.out.find("not as it was kept") != std::string::npos);
    checkRefused(log("remark x --instrument spinet", file), 3, "log repair");
    const auto repaired = log("repair", file);
    CHECK(repaired.exitCode == 0);
    CHECK(repaired.err.find("8 readings among them") != std::string::npos);
    CHECK(log("verify", file).exitCode == 0);
    REQUIRE(log("restore '" + backup + "'", file).exitCode == 0);
    CHECK(log("export --json", file).out == before);
    checkRefused(log("list", folder.path() / "none.sqlite"), 3, "no such logbook");
}
