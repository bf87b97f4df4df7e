#include "tests/support/command_line.hpp"
#include "tests/support/sound_files.hpp"
#include "tests/support/temporary_folder.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <cmath>
#include <fstream>
#include <numbers>
#include <sstream>
#include <string>
#include <vector>

using namespace quillbench;
using Json = nlohmann::json;

namespace {

constexpr int kRateHz = 44100;

/// Adds a plucked string: harmonic partials with a plucking point and phases of their own, closed form. From
/// `releasedS` on it decays by 60 dB in 0.2 s.
void pluck(
    std::vector<float>& sound, double hz, double point, double atS, double releasedS = 99.0) {
    for (int n = 1; n <= 24 && n * hz < 7000.0; ++n) {
        const double decay = 1.2 * (1.0 + n * hz / 2500.0);
        const double level = 0.1 / n * std::sin(std::numbers::pi * n * point);
        const auto first = static_cast<std::size_t>(atS * kRateHz);
        for (std::size_t i = first; i < sound.size(); ++i) {
            const double t = static_cast<double>(i) / kRateHz;
            const double late = std::max(0.0, t - releasedS);
            sound[i] += static_cast<float>(
                level * std::exp(-decay * (t - atS) - 6.91 / 0.2 * late) *
                std::sin(2.0 * std::numbers::pi * n * hz * (t - atS) + 37.0 * point * n));
        }
    }
}

std::string
written(const test::TemporaryFolder& folder, const char* name, std::vector<float> sound) {
    std::uint32_t state = 12345;
    for (float& x : sound) { // a little noise
        state = state * 1664525U + 1013904223U;
        x += 2e-4F * (static_cast<float>(state >> 8U) / 8388608.0F - 1.0F);
    }
    const auto path = folder.path() / name;
    REQUIRE(test::writeSound(path, sound, kRateHz, 1, SF_FORMAT_WAV | SF_FORMAT_FLOAT));
    return path.string();
}

std::vector<float> silence(double seconds) {
    std::vector<float> sound(static_cast<std::size_t>(seconds * kRateHz), 0.0F);
    return sound;
}

constexpr double kC4 = 246.76; // equal temperament at A4 = 415 Hz

/// A key with the 4′ first, then the 8′ 30 ms later; and each alone.
void writeKey(const test::TemporaryFolder& folder) {
    auto key = silence(2.0);
    pluck(key, 2.0 * kC4, 0.21, 0.5);
    pluck(key, kC4, 0.13, 0.53);
    written(folder, "key.wav", key);
    auto eight = silence(1.4);
    pluck(eight, kC4, 0.13, 0.3);
    written(folder, "eight.wav", eight);
    auto four = silence(1.4);
    pluck(four, 2.0 * kC4, 0.21, 0.33);
    written(folder, "four.wav", four);
}

std::vector<Json> linesOf(const std::string& text) {
    std::vector<Json> lines;
    std::istringstream in(text);
    for (std::string line; std::getline(in, line);) {
        lines.push_back(Json::parse(line));
    }
    return lines;
}

std::string quoted(const test::TemporaryFolder& folder, const char* name) {
    return "'" + (folder.path() / name).string() + "'";
}

std::string solos(const test::TemporaryFolder& folder) {
    return " --solo 8=" + quoted(folder, "eight.wav") + " --solo 4=" + quoted(folder, "four.wav");
}

} // namespace

TEST_CASE("plucks answers with every key of the contract", "[cli]") {
    const test::TemporaryFolder folder;
    writeKey(folder);
    const auto run = test::runCommandLine("plucks " + quoted(folder, "key.wav") +
                                          " --note C4 --choirs 8,4" + solos(folder) + " --json");
    REQUIRE(run.exitCode == 0);
    const auto lines = linesOf(run.out);
    REQUIRE(lines.size() == 1);
    const Json& line = lines[0];
    CHECK(line["schema"] == 1);
    CHECK(line["kind"] == "plucks");
    CHECK(line["id"].is_null());
    CHECK(line["status"] == "ok");
    REQUIRE(line["plucks"].size() == 2);
    CHECK(line["plucks"][0]["choir"] == "4");
    CHECK(line["plucks"][1]["choir"] == "8");
    CHECK(line["plucks"][0]["time_s"].get<double>() == Approx(0.5).margin(0.002));
    CHECK(line["plucks"][1]["time_s"].get<double>() == Approx(0.53).margin(0.002));
    CHECK(line["plucks"][0]["choir_confidence"].get<double>() > 0.75);
    CHECK(line["plucks"][0]["level_db"].get<double>() < 0.0);
    CHECK(line["spread_ms"].get<double>() == Approx(30.0).margin(2.0));
    CHECK(line["warnings"].is_array());

    const auto table = test::runCommandLine("plucks " + quoted(folder, "key.wav") +
                                            " --note C4 --choirs 8,4" + solos(folder));
    CHECK(table.exitCode == 0);
    CHECK(table.out.find("2 plucks") != std::string::npos);
}

TEST_CASE("plucks says how it ended", "[cli]") {
    const test::TemporaryFolder folder;
    writeKey(folder);
    REQUIRE(test::writeSound(
        folder.path() / "silence.wav", silence(2.0), kRateHz, 1, SF_FORMAT_WAV | SF_FORMAT_FLOAT));

    struct Ending {
        std::string arguments;
        int exitCode;
    };

    const std::string key = quoted(folder, "key.wav");
    for (const Ending& ending :
         {Ending{quoted(folder, "silence.wav") + " --note C4 --choirs 8,4 --json", 4},
          Ending{key + " --choirs 8,4", 2},
          Ending{key + " --note C4", 2},
          Ending{key + " --note C4 --choirs 8,7", 2},
          Ending{key + " --note C4 --choirs 8,8", 2},
          Ending{key + " --note C4 --choirs 8 --solo 4=x.wav", 2},
          Ending{key + " --note C4 --choirs 8 --solo x.wav", 2},
          Ending{key + " --note C4 --choirs 8 --solo 8=missing.wav", 3},
          Ending{"", 2},
          Ending{"missing.wav --note C4 --choirs 8", 3}}) {
        INFO(ending.arguments);
        const auto run = test::runCommandLine("plucks " + ending.arguments);
        CHECK(run.exitCode == ending.exitCode);
        if (ending.exitCode == 4) {
            const auto lines = linesOf(run.out);
            REQUIRE(lines.size() == 1);
            CHECK(lines[0]["status"] == "nothing");
            CHECK(lines[0]["plucks"].empty());
        } else {
            CHECK(run.out.empty());
            CHECK_FALSE(run.err.empty());
        }
    }
}

TEST_CASE("a batch of keys gives one line each, bad rows an error", "[cli]") {
    const test::TemporaryFolder folder;
    writeKey(folder);
    const Json good = {{"id", "good"},
                       {"file", "key.wav"},
                       {"target_hz", kC4},
                       {"choirs", {8, "4"}},
                       {"solos", {{"8", "eight.wav"}, {"4", "four.wav"}}},
                       {"colour", "red"}};
    const Json bad = {{"id", "bad"}, {"file", "key.wav"}, {"choirs", {"8"}}};
    const auto list = folder.path() / "LIST.json";
    std::ofstream(list) << Json::array({good, bad}).dump();
    const auto run = test::runCommandLine("plucks --batch '" + list.string() + "' --json");
    CHECK(run.exitCode == 3);
    CHECK(run.err.find("colour") != std::string::npos);
    const auto lines = linesOf(run.out);
    REQUIRE(lines.size() == 2);
    CHECK(lines[0]["id"] == "good");
    CHECK(lines[0]["plucks"].size() == 2);
    CHECK(lines[1]["id"] == "bad");
    CHECK(lines[1]["status"] == "error");
}

TEST_CASE("damping answers with every key of the contract", "[cli]") {
    const test::TemporaryFolder folder;
    auto key = silence(2.2);
    pluck(key, kC4, 0.13, 0.3, 1.3);
    written(folder, "key.wav", key);
    const auto run =
        test::runCommandLine("damping " + quoted(folder, "key.wav") + " --note C4 --json");
    REQUIRE(run.exitCode == 0);
    const auto lines = linesOf(run.out);
    REQUIRE(lines.size() == 1);
    const Json& line = lines[0];
    CHECK(line["schema"] == 1);
    CHECK(line["kind"] == "damping");
    CHECK(line["status"] == "ok");
    CHECK(line["release_s"].get<double>() == Approx(1.3).margin(0.01));
    CHECK(line["release_s_u"].get<double>() > 0.0);
    CHECK(line["t60_after_s"].get<double>() == Approx(0.2).margin(0.05));
    CHECK(line["t60_after_s_u"].get<double>() > 0.0);
    CHECK(line["stop_s"].get<double>() == Approx(0.133).margin(0.04));
    CHECK(line["residual_db"].get<double>() < -20.0);
}

TEST_CASE("damping says how it ended, alone and in a batch", "[cli]") {
    const test::TemporaryFolder folder;
    REQUIRE(test::writeSound(
        folder.path() / "silence.wav", silence(2.0), kRateHz, 1, SF_FORMAT_WAV | SF_FORMAT_FLOAT));
    const std::string silent = quoted(folder, "silence.wav");
    CHECK(test::runCommandLine("damping " + silent + " --note C4 --json").exitCode == 4);
    CHECK(test::runCommandLine("damping " + silent).exitCode == 2);
    CHECK(test::runCommandLine("damping " + silent + " --note H7x").exitCode == 2);
    CHECK(test::runCommandLine("damping missing.wav --note C4").exitCode == 3);
    const auto list = folder.path() / "LIST.json";
    std::ofstream(list) << Json::array({{{"file", "silence.wav"}, {"note", "C4"}},
                                        {{"file", "missing.wav"}, {"note", "C4"}}})
                               .dump();
    const auto run = test::runCommandLine("damping --batch '" + list.string() + "' --json");
    CHECK(run.exitCode == 3);
    const auto lines = linesOf(run.out);
    REQUIRE(lines.size() == 2);
    CHECK(lines[0]["status"] == "nothing");
    CHECK(lines[0]["release_s"].is_null());
    CHECK(lines[1]["status"] == "error");
}
