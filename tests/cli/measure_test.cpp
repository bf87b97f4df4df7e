#include "tests/core/dsp/plucked_string.hpp"
#include "tests/support/command_line.hpp"
#include "tests/support/sound_files.hpp"
#include "tests/support/temporary_folder.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

using namespace quillbench;
using Json = nlohmann::json;

namespace {

/// A3 at a' = 415 Hz, equal temperament, 3 cents sharp, as a file.
struct Recorded {
    Recorded() {
        string.pitchHz = 207.5 * std::exp2(3.0 / 1200.0);
        string.inharmonicity = 3e-5;
        REQUIRE(test::writeSound(file, string.render(), 48000, 1, SF_FORMAT_WAV | SF_FORMAT_FLOAT));
    }

    test::TemporaryFolder folder;
    test::PluckedString string;
    std::string file = (folder.path() / "a3.wav").string();
};

std::vector<Json> linesOf(const std::string& text) {
    std::vector<Json> lines;
    std::istringstream in(text);
    for (std::string line; std::getline(in, line);) {
        lines.push_back(Json::parse(line));
    }
    return lines;
}

} // namespace

TEST_CASE("measure prints what the contract promises", "[cli]") {
    const Recorded sound;
    const auto run =
        test::runCommandLine("measure '" + sound.file + "' --note A3 --window 1 --json");
    CHECK(run.exitCode == 0);
    const auto lines = linesOf(run.out);
    REQUIRE(lines.size() == 1);
    const Json& line = lines[0];
    CHECK(line["schema"] == 1);
    CHECK(line["kind"] == "measure");
    CHECK(line["id"].is_null());
    CHECK(line["status"] == "ok");
    CHECK(line["note"] == "A3");
    CHECK(line["choir"] == "8");
    CHECK(line["target_hz"].get<double>() == Approx(207.5));
    CHECK(line["window_s"].get<double>() == Approx(1.0));
    CHECK(line["used_s"].get<double>() == Approx(1.0).margin(1e-3));
    CHECK(line["pluck_s"].get<double>() == Approx(0.5).margin(0.002));
    CHECK(line["deviation_cents"].get<double>() == Approx(3.0).margin(0.1));
    CHECK(line["deviation_cents_u"].get<double>() > 0.0);
    CHECK(line["inharmonicity"].get<double>() == Approx(3e-5).epsilon(0.05));
    CHECK(line["own_beat_hz"].is_null());
    CHECK(line["warnings"].empty());
    REQUIRE(line["partials"].size() > 10);
    for (const char* field : {"n", "hz", "hz_u", "level_db", "t60_s"}) {
        CHECK(line["partials"][0].contains(field));
    }
}

TEST_CASE("without a note the key is recognised", "[cli]") {
    const Recorded sound;
    const auto run = test::runCommandLine("measure '" + sound.file + "' --json");
    CHECK(run.exitCode == 0);
    const auto lines = linesOf(run.out);
    REQUIRE(lines.size() == 1);
    CHECK(lines[0]["note"] == "A3");
    CHECK(lines[0]["deviation_cents"].get<double>() == Approx(3.0).margin(0.1));
}

TEST_CASE("a batch gives one line for every window, in order, with its id", "[cli]") {
    const Recorded sound;
    const auto list = sound.folder.path() / "list.json";
    std::ofstream(list)
        << R"([{"id":"x","file":"a3.wav","note":"A3","window":[2,0.5],"colour":"red"},)"
        << R"({"id":"y","file":"missing.wav","note":"A3"},)"
        << R"({"id":"z","file":"a3.wav","target_hz":311.1,"window":0.5}])";
    const auto run = test::runCommandLine("measure --batch '" + list.string() + "' --json");
    CHECK(run.exitCode == 3);
    const auto lines = linesOf(run.out);
    REQUIRE(lines.size() == 4);
    CHECK(lines[0]["id"] == "x");
    CHECK(lines[0]["window_s"] == 2.0);
    CHECK(lines[1]["window_s"] == 0.5);
    CHECK(lines[2]["status"] == "error");
    CHECK(lines[2]["error"].get<std::string>().find("missing.wav") != std::string::npos);
    CHECK(lines[3]["status"] == "nothing");
    CHECK(run.err.find("colour") != std::string::npos);
}

TEST_CASE("a reading is drawn: every partial, the glide and the pitch with its uncertainty",
          "[cli]") {
    const Recorded sound;
    const auto picture = sound.folder.path() / "a3.svg";
    const auto run =
        test::runCommandLine("measure '" + sound.file + "' --note A3 --window 1 --plot '" +
                             picture.string() + "' --json");
    CHECK(run.exitCode == 0);
    const auto lines = linesOf(run.out);
    REQUIRE(lines.size() == 1);
    std::stringstream svg;
    svg << std::ifstream(picture).rdbuf();
    const auto count = [&](const std::string& word) {
        std::size_t found = 0;
        for (auto at = svg.str().find(word); at != std::string::npos;
             at = svg.str().find(word, at + 1)) {
            ++found;
        }
        return found;
    };
    CHECK(count("<svg") == 1);
    CHECK(count("</svg>") == 1);
    CHECK(count("<circle") == lines[0]["partials"].size());
    CHECK(count("<polyline") == lines[0]["partials"].size() + 2);
    std::array<char, 32> pitch{};
    std::snprintf(pitch.data(), pitch.size(), "%.3f ±", lines[0]["pitch_hz"].get<double>());
    CHECK(count(pitch.data()) == 1);
}

TEST_CASE("a picture that cannot be drawn is said in one line", "[cli]") {
    const Recorded sound;
    const auto batch = test::runCommandLine("measure --batch list.json --plot a.svg");
    CHECK(batch.exitCode == 2);
    CHECK(batch.err.find("--plot") != std::string::npos);
    const auto place = test::runCommandLine("measure '" + sound.file +
                                            "' --note A3 --plot '/no such folder/a.svg'");
    CHECK(place.exitCode == 2);
    CHECK(place.err.find("/no such folder/a.svg") != std::string::npos);
}

TEST_CASE("exit codes tell a wrong command from a wrong file from nothing heard", "[cli]") {
    const Recorded sound;
    CHECK(test::runCommandLine("measure").exitCode == 2);
    CHECK(test::runCommandLine("measure '" + sound.file + "' --note H9 --json").exitCode == 2);
    CHECK(test::runCommandLine("measure '" + sound.file + "' --note A3 --choir 5").exitCode == 2);
    CHECK(test::runCommandLine("measure '" + sound.file + "' --note A3 --temperament none")
              .exitCode == 2);
    const auto missing = test::runCommandLine("measure nowhere.wav --note A3 --json");
    CHECK(missing.exitCode == 3);
    CHECK(missing.out.empty());
    CHECK(missing.err.find("nowhere.wav") != std::string::npos);
    const auto other = test::runCommandLine("measure '" + sound.file + "' --note C5 --json");
    CHECK(other.exitCode == 4);
    CHECK(linesOf(other.out).at(0)["status"] == "nothing");
}

TEST_CASE("a 4' string is named by its key", "[cli]") {
    const Recorded sound;
    const auto run =
        test::runCommandLine("measure '" + sound.file + "' --note A2 --choir 4 --json");
    CHECK(run.exitCode == 0);
    CHECK(linesOf(run.out).at(0)["target_hz"].get<double>() == Approx(207.5));
}

TEST_CASE("a channel that no recording has is refused with its row", "[cli]") {
    const Recorded sound;
    const std::string list = (sound.folder.path() / "channels.json").string();
    std::ofstream(list) << R"([{"file": ")" << sound.file
                        << R"(", "note": "A3", "channel": 1e300},)"
                        << R"({"file": ")" << sound.file << R"(", "note": "A3", "channel": -1},)"
                        << R"({"file": ")" << sound.file << R"(", "note": "A3", "channel": 0.5}])";
    const auto run = test::runCommandLine("measure --batch '" + list + "' --json");
    CHECK(run.exitCode == 3);
    const auto lines = linesOf(run.out);
    REQUIRE(lines.size() == 3);
    for (const Json& line : lines) {
        CHECK(line["status"] == "error");
        CHECK(line["error"].get<std::string>().find("channel") != std::string::npos);
    }
}

TEST_CASE("a recording may lie anywhere: names with spaces, quotes, newlines, and no UTF-8",
          "[cli]") {
    const Recorded sound;
    for (const char* name : {"with space.wav",
                             "\"quoted\" $HOME `x`.wav",
                             "two\nlines.wav",
                             "\u266F \U0001FAB6.wav",
                             "Latin-1 \xE9.wav",
                             "-dash.wav"}) {
        const auto file = sound.folder.path() / name;
        std::filesystem::copy_file(sound.file, file);
        INFO(name);
        const auto run = test::runCommandLine("measure '" + file.string() + "' --note A3 --json");
        CHECK(run.exitCode == 0);
        const auto lines = linesOf(run.out);
        REQUIRE(lines.size() == 1);
        CHECK(lines[0]["status"] == "ok");
    }
}

TEST_CASE("values beyond all measure are refused in one line", "[cli]") {
    const Recorded sound;
    for (const char* options : {"--from 1e300",
                                "--from nan",
                                "--from -1",
                                "--window nan",
                                "--a4 inf",
                                "--range-cents 1e99",
                                "--target-hz -inf",
                                "--choir \"$(printf 'a\\nb')\"",
                                "--note \"$(printf 'A3\\nB3')\"",
                                "--temperament \"$(printf '%04096d' 0)\""}) {
        INFO(options);
        const auto run = test::runCommandLine(
            "measure '" + sound.file + "' " +
            (std::string(options).find("--note") == 0 ? "" : "--note A3 ") + options);
        CHECK(run.exitCode == 2);
        CHECK(run.out.empty());
        CHECK(run.err.size() < 300);
        CHECK(std::count(run.err.begin(), run.err.end(), '\n') == 1);
    }
}
