#include "audio/sound_file.hpp"
#include "tests/support/command_line.hpp"
#include "tests/support/temporary_folder.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <string>

using namespace quillbench;
using Json = nlohmann::json;

namespace {

test::CommandLineRun simulate(const std::string& arguments, const std::string& out) {
    return test::runCommandLine("simulate --instrument single-8-8 " + arguments + " '" + out + "'");
}

} // namespace

TEST_CASE("simulate writes a sound and what is true of it", "[cli]") {
    const test::TemporaryFolder folder;
    const std::string out = (folder.path() / "two.wav").string();
    const auto run = simulate("--play A3:8@0.2+1,A3:8b@0.25 --detune 8b:A3=+4.2 --a4 440 "
                              "--temperament equal --noise-db 35 --rate 44100 --length 1.5",
                              out);
    REQUIRE(run.exitCode == 0);
    CHECK(run.out.empty());
    const auto sound = readSound(out);
    REQUIRE(sound.hasValue());
    CHECK(sound->rate.hz() == Approx(44100.0));
    CHECK(sound->samples.size() == 66150);

    std::ifstream in(folder.path() / "two.truth.json");
    const Json truth = Json::parse(in);
    CHECK(truth["schema"] == 1);
    CHECK(truth["kind"] == "truth");
    REQUIRE(truth["plucks"].size() == 2);
    const Json& first = truth["plucks"][0];
    const Json& second = truth["plucks"][1];
    CHECK(first["choir"] == "8");
    CHECK(second["choir"] == "8b");
    CHECK(second["note"] == "A3");
    CHECK(first["pluck_s"].get<double>() == Approx(0.2).margin(1e-4));
    CHECK(first["target_hz"].get<double>() == Approx(220.0)); // A4 = 440 Hz, an octave below
    CHECK(first["rest_hz"].get<double>() == Approx(220.0));
    const double cents =
        1200.0 * std::log2(second["rest_hz"].get<double>() / second["target_hz"].get<double>());
    CHECK(cents == Approx(4.2));
    CHECK(first["inharmonicity"].get<double>() > 1e-6);
    REQUIRE(truth["pairs"].size() == 1);
    const Json& pair = truth["pairs"][0];
    CHECK(pair["interval"] == "unison");
    CHECK(pair["direction"] == "wide");
    CHECK(pair["width_cents"].get<double>() == Approx(4.2).margin(1.5));
}

TEST_CASE("a note after silence to the last bit is recognised", "[cli]") {
    const test::TemporaryFolder folder;
    for (const char* note : {"A3", "C4", "G4", "C3"}) {
        const std::string out = (folder.path() / (std::string(note) + ".wav")).string();
        REQUIRE(simulate(std::string("--seed 3 --play ") + note + ":8@0.5+2", out).exitCode == 0);
        const auto run = test::runCommandLine("measure '" + out + "' --json");
        CHECK(run.exitCode == 0);
        CHECK(Json::parse(run.out)["note"] == note);
    }
}

TEST_CASE("the same seed writes the same file", "[cli]") {
    const test::TemporaryFolder folder;
    const auto written = [&folder](const char* name, const char* seed) {
        const std::string out = (folder.path() / name).string();
        const auto run =
            simulate(std::string("--play C4@0+0.2 --length 0.4 --noise-db 40 --seed ") + seed, out);
        REQUIRE(run.exitCode == 0);
        return readSound(out).value().samples;
    };
    const auto first = written("a.wav", "5");
    REQUIRE(first.size() == 19200);
    CHECK((first == written("b.wav", "5"))); // in brackets: not thousands of samples printed
    CHECK((first != written("c.wav", "6")));
}

TEST_CASE("what simulate cannot do it says in one line", "[cli]") {
    const test::TemporaryFolder folder;
    const std::string out = (folder.path() / "x.wav").string();

    struct Wrong {
        const char* arguments;
        int exitCode;
    };

    for (const Wrong& wrong : {Wrong{"--play A3:9@0", 2},
                               Wrong{"--play H3:8@0", 2},
                               Wrong{"--play A3:8", 2},
                               Wrong{"--play A3:8@0 --detune 8:A3", 2},
                               Wrong{"--play A3:8@0 --temperament no-such", 2},
                               Wrong{"--play A3:8@0 --rate 100", 2},
                               Wrong{"", 2}}) {
        CAPTURE(wrong.arguments);
        const auto run = simulate(wrong.arguments, out);
        CHECK(run.exitCode == wrong.exitCode);
        CHECK(run.out.empty());
        CHECK(std::count(run.err.begin(), run.err.end(), '\n') == 1);
    }
    CHECK(simulate("--play A3:8@0", (folder.path() / "x.mp3").string()).exitCode == 2);
    CHECK(simulate("--play A3:8@0+0.1", (folder.path() / "none" / "x.wav").string()).exitCode == 3);
    const auto missing =
        test::runCommandLine("simulate --instrument no-such-thing --play A3:8@0 '" + out + "'");
    CHECK(missing.exitCode == 3);
}
