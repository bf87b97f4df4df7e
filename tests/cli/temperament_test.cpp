#include "tests/support/command_line.hpp"
#include "tests/support/temporary_folder.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <iterator>
#include <set>
#include <string>

using namespace quillbench;
using Json = nlohmann::json;

namespace {

Json answer(const std::string& arguments) {
    const auto run = test::runCommandLine(arguments + " --json");
    INFO(arguments << "\n" << run.err);
    REQUIRE(run.exitCode == 0);
    REQUIRE(std::count(run.out.begin(), run.out.end(), '\n') == 1);
    Json json = Json::parse(run.out);
    CHECK(json["schema"] == 1);
    CHECK(json["status"] == "ok");
    CHECK(json["id"].is_null());
    return json;
}

void checkRefused(const std::string& arguments, int exitCode, const std::string& part) {
    const auto run = test::runCommandLine(arguments);
    INFO(arguments << "\n" << run.err);
    CHECK(run.exitCode == exitCode);
    CHECK(run.out.empty());
    CHECK(std::count(run.err.begin(), run.err.end(), '\n') == 1);
    CHECK(run.err.find(part) != std::string::npos);
}

} // namespace

TEST_CASE("temperament lists the catalogue", "[cli]") {
    const Json json = answer("temperament");
    CHECK(json["kind"] == "temperaments");
    CHECK(json["temperaments"].size() == 48);
    for (const Json& each : json["temperaments"]) {
        for (const char* field : {"id", "name", "year", "source"}) {
            CHECK_FALSE(each[field].get<std::string>().empty());
        }
    }
    const auto table = test::runCommandLine("temperament");
    CHECK(table.exitCode == 0);
    CHECK(std::count(table.out.begin(), table.out.end(), '\n') == 49);
}

TEST_CASE("temperament prints every promised field", "[cli]") {
    const Json json = answer("temperament vallotti --a4 415 --beats --positions 0,1");
    CHECK(json["kind"] == "temperament");
    CHECK(json["notes"].size() == 12);
    CHECK(json["notes"][0] == "C");
    CHECK(json["cents"][0] == 0.0);
    CHECK(std::is_sorted(json["cents"].begin(), json["cents"].end()));
    CHECK(json["cents"][9].get<double>() == Approx(894.134997).margin(1e-6));
    CHECK(json["offset_cents"][9] == 0.0);
    CHECK(json["hz"]["A4"] == 415.0);
    CHECK(json["hz"].size() == 61);
    CHECK(json["fifths"].size() == 12);
    CHECK(json["fifths"][0]["lower"] == "C");
    CHECK(json["fifths"][0]["upper"] == "G");
    CHECK(json["fifths"][0]["exact"] == "-1/6P");
    CHECK(json["fifths"][0]["cents"].get<double>() == Approx(-3.910002).margin(1e-6));
    CHECK(json["fifths"][11]["lower"] == "F");
    CHECK(json["thirds"].size() == 24);
    CHECK(json["closes_cents"] == 0.0);
    CHECK_FALSE(json["source"].get<std::string>().empty());
    CHECK(json["disagreement"].get<std::string>().find("Barbieri") != std::string::npos);
    // Worked value of tests/core/temperament: moved up a semitone, A4 sounds 441.17 Hz.
    CHECK(json["positions"][1]["a4"].get<double>() == Approx(441.17).margin(0.005));
    CHECK(json["positions"][1]["major_thirds"][0]["width_cents"].get<double>() ==
          Approx(21.506290).margin(1e-5));
    bool found = false;
    for (const Json& beat : json["beats"]) {
        if (beat["lower"] == "F3" && beat["upper"] == "A3") {
            found = true;
            CHECK(beat["beat_hz"].get<double>() == Approx(2.807693).margin(1e-5));
            CHECK(beat["direction"] == "wide");
        }
    }
    CHECK(found);
}

TEST_CASE("roots, standards and split sharps are taken", "[cli]") {
    CHECK(answer("temperament equal --a4 440")["hz"]["A4"] == 440.0);
    CHECK(answer("temperament MT4 --standard C5=523.25")["hz"]["C5"] == 523.25);
    CHECK(answer("temperament MT4 --standard \"c''=523.25\" --helmholtz --keys \"C..c''\"")["hz"]
              .size() == 37);
    CHECK(answer("temperament vallotti --root D")["fifths"][1]["cents"].get<double>() < -3.0);
    CHECK(answer("temperament vallotti --root D")["fifths"][11]["cents"].get<double>() ==
          Approx(0.0).margin(1e-9));
    const Json split = answer("temperament meantone-quarter --notes Ab..D#");
    CHECK(split["notes"].size() == 14);
    CHECK(split["closes_cents"].get<double>() == Approx(-41.058859).margin(1e-6));
    CHECK(split["hz"]["D#4"].get<double>() < split["hz"]["Eb4"].get<double>());
}

TEST_CASE("a temperament of one's own comes from its file and back", "[cli]") {
    const test::TemporaryFolder folder;
    const std::string path = (folder.path() / "mine.json").string();
    const auto made =
        test::runCommandLine("temperament kellner --export file --out '" + path + "'");
    REQUIRE(made.exitCode == 0);
    const Json json = answer("temperament '" + path + "'");
    CHECK(json["temperament"] == "kellner");
    CHECK(json["definition"] == "own");
    CHECK(json["fifths"][0]["exact"] == "-1/5P");
    std::ofstream(path) << "{\"schema\": 9, \"kind\": \"temperament\"}";
    checkRefused("temperament '" + path + "'", 3, "schema is 9");
    std::ofstream(path) << "{";
    checkRefused("temperament '" + path + "'", 3, "not JSON");
}

TEST_CASE("exports go to the file or to standard output", "[cli]") {
    const test::TemporaryFolder folder;
    const std::string path = (folder.path() / "out").string();
    const auto size = [&] {
        std::ifstream in(path, std::ios::binary);
        return std::string(std::istreambuf_iterator<char>(in), {}).size();
    };
    for (const auto& [form, bytes] : {std::pair("mts-octave-1", 21U),
                                      std::pair("mts-octave-2", 33U),
                                      std::pair("mts-bulk", 408U),
                                      std::pair("mts-notes", 8U + 4U * 61U)}) {
        const auto run = test::runCommandLine(std::string("temperament W3 --export ") + form +
                                              " --out '" + path + "'");
        CHECK(run.exitCode == 0);
        CHECK(size() == bytes);
    }
    const auto csv = test::runCommandLine("temperament W3 --export csv");
    CHECK(csv.exitCode == 0);
    CHECK(std::count(csv.out.begin(), csv.out.end(), '\n') == 62);
}

TEST_CASE("a wrong temperament command line exits with 2 and one line that mends it", "[cli]") {
    checkRefused("temperament vallotty", 2, "perhaps vallotti");
    checkRefused("temperament equal --a4 41", 2, "300 to 600");
    checkRefused("temperament equal --root X", 2, "--root is 'X'");
    checkRefused("temperament equal --standard C5", 2, "C5=523.25");
    checkRefused("temperament equal --keys F6..F1", 2, "lowest and highest");
    checkRefused("temperament vallotti --notes Ab..D#", 2, "regular");
    checkRefused("temperament equal --helmholtz --standard B=400", 2, "B flat");
    checkRefused("temperament equal --export ogg", 2, "--export");
    checkRefused("temperament equal --positions 99", 2, "--positions");
    checkRefused("temperament no-such-file.json", 3, "no such file");
    checkRefused("bearings", 2, "name");
    checkRefused("bearings vallotti --plan dom-bedos", 2, "vallotti-from-f-a");
    checkRefused("bearings vallotti --range A1..C3", 2, "--range");
}

TEST_CASE("bearings prints every promised field", "[cli]") {
    const Json json = answer("bearings vallotti --a4 415");
    CHECK(json["kind"] == "bearings");
    CHECK(json["plan"] == "computed");
    CHECK(json["plans"].size() == 2);
    std::set<std::string> kinds;
    for (const Json& step : json["steps"]) {
        kinds.insert(step["kind"].get<std::string>());
        CHECK(step["beat_hz"].get<double>() >= 0.0);
        CHECK((step["beat_hz"] == 0.0) == (step["direction"] == "pure"));
        for (const char* field : {"tune", "against", "interval", "direction", "says"}) {
            CHECK_FALSE(step[field].get<std::string>().empty());
        }
    }
    CHECK(kinds == std::set<std::string>{"tune", "temporary", "share", "check"});
    const Json published = answer("bearings vallotti --plan vallotti-from-f-a");
    CHECK(published["plan"] == "vallotti-from-f-a");
    CHECK(published["source"].get<std::string>().find("hpschd.nu") != std::string::npos);
    CHECK(published["steps"][2]["beat_hz"].get<double>() == Approx(2.807693).margin(1e-5));
    const auto table = test::runCommandLine("bearings equal --range C3..G4");
    CHECK(table.exitCode == 0);
    CHECK(table.out.find("Set A3") != std::string::npos);
    CHECK(table.out.find("--plan equal-from-f-a") != std::string::npos);
}
