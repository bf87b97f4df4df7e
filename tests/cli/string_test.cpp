#include "app/formats/instrument_file.hpp"
#include "core/instrument/examples.hpp"
#include "tests/support/command_line.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <string>
#include <utility>
#include <vector>

using namespace quillbench;
using Json = nlohmann::json;

namespace {

constexpr const char* kC2 = "string --hz 493.88 --length-mm 350 --diameter-mm 0.23 --material iron";

std::size_t linesIn(const std::string& text) {
    return static_cast<std::size_t>(std::count(text.begin(), text.end(), '\n'));
}

} // namespace

TEST_CASE("string prints every promised field as one JSON line", "[cli]") {
    const auto run = test::runCommandLine(std::string(kC2) + " --pin-diameter-mm 4.8 --json");
    CHECK(run.exitCode == 0);
    REQUIRE(linesIn(run.out) == 1);
    const Json json = Json::parse(run.out);
    CHECK(json["schema"] == 1);
    CHECK(json["kind"] == "string");
    CHECK(json["id"].is_null());
    CHECK(json["status"] == "ok");
    // Worked values of tests/golden/strings.csv: c2, iron, within 0.7 % for the density.
    CHECK(json["tension_n"].get<double>() == Approx(39.0).epsilon(0.007));
    CHECK(json["stress_mpa"].get<double>() == Approx(938.0).epsilon(0.007));
    CHECK(json["inharmonicity"].get<double>() == Approx(5.678e-5).epsilon(0.007));
    CHECK(json["cents_per_kelvin"].get<double>() == Approx(-1.42).epsilon(0.02));
    CHECK(json["cents_per_degree"].get<double>() == Approx(22.1).epsilon(0.01));
    CHECK(json["mass_per_m"].get<double>() == Approx(7800 * 3.14159265 * 0.25 * 0.23e-3 * 0.23e-3));
    CHECK(json["strength_mpa_low"].get<double>() < json["strength_mpa_high"].get<double>());
    CHECK(json["margin_semitones_low"].get<double>() < json["margin_semitones_high"].get<double>());
    CHECK(json["source"].get<std::string>().find("value from memory") != std::string::npos);
}

TEST_CASE("without a pin there are no cents a degree", "[cli]") {
    const auto run = test::runCommandLine(std::string(kC2) + " --json");
    CHECK(run.exitCode == 0);
    CHECK(Json::parse(run.out)["cents_per_degree"].is_null());
}

TEST_CASE("the caution is said once, and not among the values", "[cli]") {
    for (const char* what : {" --json", ""}) {
        const auto run = test::runCommandLine(std::string(kC2) + what);
        CHECK(run.exitCode == 0);
        CHECK(linesIn(run.err) == 1);
        CHECK(run.err.find("range, not a promise") != std::string::npos);
        CHECK(run.err.find("eyes") != std::string::npos);
        CHECK(run.err.find("conservator") != std::string::npos);
        CHECK(run.out.find("conservator") == std::string::npos);
        CHECK((run.out + run.err).find("safe") == std::string::npos);
    }
}

TEST_CASE("an instrument gives a line for each of its strings", "[cli]") {
    const auto run = test::runCommandLine("string --instrument double-8-8-4 --json");
    CHECK(run.exitCode == 0);
    CHECK(linesIn(run.out) == std::size_t{3} * 61);
    const auto one =
        test::runCommandLine("string --instrument double-8-8-4 --choir 4 --note A3 --json");
    REQUIRE(linesIn(one.out) == 1);
    CHECK(Json::parse(one.out)["id"] == "4:A3");
    CHECK(Json::parse(one.out)["hz"].get<double>() == Approx(415.0));
    const auto key = test::runCommandLine("string --instrument double-8-8-4 --note A3");
    CHECK(linesIn(key.out) == 1 + 3);
}

TEST_CASE("an instrument file is read, and a bad one names file and field", "[cli]") {
    const test::TemporaryFolder folder;
    const auto path = folder.path() / "own.json";
    REQUIRE(writeInstrumentFile(path, {*findExample("spinet"), ""}));
    const auto good = test::runCommandLine("string --instrument '" + path.string() + "' --json");
    CHECK(good.exitCode == 0);
    Json json = Json::parse(formatInstrument({*findExample("spinet"), ""}));
    json["choirs"][0]["strings"][3]["diameter_mm"] = 23;
    std::ofstream(path) << json.dump();
    const auto bad = test::runCommandLine("string --instrument '" + path.string() + "'");
    CHECK(bad.exitCode == 3);
    CHECK(bad.out.empty());
    CHECK(bad.err.find(path.string() +
                       ": choirs[0].strings[3].diameter_mm is 23: give 0.05 to 3 mm") !=
          std::string::npos);
}

TEST_CASE("a wrong command line ends with 2 and one line that mends it", "[cli]") {
    const std::vector<std::pair<const char*, const char*>> faults{
        {"string", "--hz is missing: give 10 to 10000 Hz"},
        {"string --hz nan --length-mm 300 --diameter-mm 0.2 --material iron", "--hz is nan"},
        {"string --hz 415 --diameter-mm 0.2 --material iron", "--length-mm is missing: give 20 to"},
        {"string --hz 415 --length-mm 300 --diameter-mm 23 --material iron",
         "--diameter-mm is 23: give 0.05 to 3 mm"},
        {"string --hz 415 --length-mm 300 --diameter-mm 0.2", "--material is missing: give one of"},
        {"string --hz 415 --length-mm 300 --diameter-mm 0.2 --material gut",
         "--material is 'gut': give one of iron, steel"},
        {"string --hz 415 --length-mm 300 --diameter-mm 0.2 --material iron --pin-diameter-mm 0",
         "--pin-diameter-mm is 0: give 2 to 12 mm"},
        {"string --hz x", "--hz"},
        {"string --note A3", "--instrument"},
        {"string --instrument spinet --hz 415", "--hz"},
        {"string --instrument spinet --choir 4", "--choir is '4': give one of 8"},
        {"string --instrument spinet --note A9", "give a key of the compass, G1 to D6"},
    };
    for (const auto& [arguments, says] : faults) {
        const auto run = test::runCommandLine(arguments);
        INFO(arguments << " said " << run.err);
        CHECK(run.exitCode == 2);
        CHECK(run.out.empty());
        CHECK(linesIn(run.err) == 1);
        CHECK(run.err.find(says) != std::string::npos);
    }
    CHECK(test::runCommandLine("string --instrument nowhere.json").exitCode == 3);
}

TEST_CASE("simulate plays an instrument from its file", "[cli]") {
    const test::TemporaryFolder folder;
    const auto path = folder.path() / "own.json";
    Instrument own = *findExample("spinet");
    own.id = "own";
    own.pitchStandardHz = 400.0;
    REQUIRE(writeInstrumentFile(path, {own, ""}));
    const auto sound = (folder.path() / "own.wav").string();
    const auto run = test::runCommandLine("simulate --instrument '" + path.string() +
                                          "' --play A3:8@0+0.3 '" + sound + "'");
    INFO(run.err);
    CHECK(run.exitCode == 0);
    std::ifstream truth(folder.path() / "own.truth.json");
    const Json json = Json::parse(truth);
    CHECK(json["instrument"] == "own");
    CHECK(json["plucks"][0]["target_hz"].get<double>() == Approx(200.0));
}
