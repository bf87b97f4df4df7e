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
constexpr std::size_t kThreeSeconds = 132300;

/// Adds a plucked string: harmonic partials 1/n, exponential decay, closed form.
void pluck(std::vector<float>& sound, double hz, double atS) {
    for (int n = 1; n <= 16 && n * hz < 8000.0; ++n) {
        const double decay = 1.2 * (1.0 + n * hz / 1500.0);
        const auto first = static_cast<std::size_t>(atS * kRateHz);
        for (std::size_t i = first; i < sound.size(); ++i) {
            const double t = static_cast<double>(i) / kRateHz - atS;
            sound[i] += static_cast<float>(0.1 / n * std::exp(-decay * t) *
                                           std::sin(2.0 * std::numbers::pi * n * hz * t + n));
        }
    }
}

std::string
written(const test::TemporaryFolder& folder, const char* name, const std::vector<float>& sound) {
    const auto path = folder.path() / name;
    REQUIRE(test::writeSound(path, sound, kRateHz, 1, SF_FORMAT_WAV | SF_FORMAT_FLOAT));
    return path.string();
}

/// Half a second of silence, the lower string alone, then both at 3 s.
std::vector<float> aloneThenBoth(double lowerHz, double upperHz) {
    std::vector<float> lower(kThreeSeconds, 0.0F);
    pluck(lower, lowerHz, 0.5);
    for (std::size_t i = kThreeSeconds * 9 / 10; i < lower.size(); ++i) { // the damper
        lower[i] *= static_cast<float>(std::exp(-(static_cast<double>(i) / kRateHz - 2.7) / 0.02));
    }
    std::vector<float> sound = lower;
    sound.resize(static_cast<std::size_t>(5.6 * kRateHz), 0.0F);
    pluck(sound, lowerHz, 3.0);
    pluck(sound, upperHz, 3.0);
    return sound;
}

test::CommandLineRun beats(const std::string& arguments) {
    return test::runCommandLine("beats " + arguments);
}

std::vector<Json> linesOf(const std::string& text) {
    std::vector<Json> lines;
    std::istringstream in(text);
    for (std::string line; std::getline(in, line);) {
        lines.push_back(Json::parse(line));
    }
    return lines;
}

constexpr double kC4 = 261.6256; // equal temperament at A4 = 440 Hz

} // namespace

TEST_CASE("beats answers with every key of the contract", "[cli]") {
    const test::TemporaryFolder folder;
    const std::string file = written(folder, "fifth.wav", aloneThenBoth(kC4, kC4 * 1.5 - 0.4));
    const auto run = beats("'" + file + "' --alone '" + file +
                           "' --alone-from 0.4 --alone-to 2.6 --lower C4 --upper G4 --a4 440 "
                           "--from 2.85 --window 2 --json");
    REQUIRE(run.exitCode == 0);
    const auto lines = linesOf(run.out);
    REQUIRE(lines.size() == 1);
    const Json& line = lines[0];
    CHECK(line["schema"] == 1);
    CHECK(line["kind"] == "beats");
    CHECK(line["id"].is_null());
    CHECK(line["status"] == "ok");
    CHECK(line["interval"] == "fifth");
    CHECK(line["ratio"] == Json({3, 2}));
    CHECK(line["window_s"] == 2.0);
    CHECK(line["beat_hz"].get<double>() == Approx(0.8).margin(0.03));
    CHECK(line["beat_hz_u"].get<double>() > 0.0);
    CHECK(line["direction"] == "narrow");
    CHECK(line["width_cents"].get<double>() == Approx(-1.765).margin(0.1));
    CHECK(line["width_cents_u"].get<double>() > 0.0);
    // [Capleton2007] prints 0.9 for C4-G4 at A4 = 440 Hz.
    CHECK(line["target_beat_hz"].get<double>() == Approx(0.9).margin(0.05));
    CHECK(line["target_direction"] == "narrow");
    CHECK(line["own_beat_hz"].is_null());
    CHECK(line["warnings"].is_array());
    REQUIRE(line["coincident"].size() >= 2);
    CHECK(line["coincident"][0]["lower_n"] == 3);
    CHECK(line["coincident"][0]["upper_n"] == 2);
    CHECK(line["coincident"][0]["hz"].get<double>() == Approx(3.0 * kC4).epsilon(1e-3));
    CHECK(line["coincident"][0]["depth_db"].get<double>() > 0.0);
}

TEST_CASE("beats says how it ended", "[cli]") {
    const test::TemporaryFolder folder;
    const std::string silence =
        written(folder, "silence.wav", std::vector<float>(kThreeSeconds, 0.0F));

    struct Ending {
        std::string arguments;
        int exitCode;
    };

    const std::string quoted = "'" + silence + "'";
    for (const Ending& ending :
         {Ending{quoted + " --lower C4 --upper G4 --json", 4},
          Ending{quoted + " --lower C4", 2},
          Ending{quoted + " --lower C4 --upper C#4 --interval wolf", 2},
          Ending{quoted + " --lower C4 --upper G4 --lower-cents 2", 2},
          Ending{quoted + " --lower C4 --upper G4 --window -1", 2},
          Ending{"", 2},
          Ending{"'" + (folder.path() / "missing.wav").string() + "' --lower C4 --upper G4", 3}}) {
        INFO(ending.arguments);
        const auto run = beats(ending.arguments);
        CHECK(run.exitCode == ending.exitCode);
        if (ending.exitCode == 4) {
            const auto lines = linesOf(run.out);
            REQUIRE(lines.size() == 1);
            CHECK(lines[0]["status"] == "nothing");
            CHECK(lines[0]["beat_hz"].is_null());
        } else {
            CHECK(run.out.empty());
            CHECK_FALSE(run.err.empty());
        }
    }
}

TEST_CASE("a batch of pairs gives one line per window, bad rows an error", "[cli]") {
    const test::TemporaryFolder folder;
    written(folder, "octave.wav", aloneThenBoth(kC4, 2.0 * kC4 + 1.0));
    const auto batch = [&folder](const Json& rows) {
        const auto path = folder.path() / "LIST.json";
        std::ofstream(path) << rows.dump();
        return beats("--batch '" + path.string() + "' --json");
    };
    const Json good = {{"id", "good"},
                       {"file", "octave.wav"},
                       {"lower", "C4"},
                       {"upper", "C5"},
                       {"a4", 440},
                       {"from", 2.85},
                       {"alone_from", 0.4},
                       {"alone_to", 2.6},
                       {"alone", "octave.wav"},
                       {"window", {1, 2}},
                       {"colour", "red"}};
    const auto fine = batch(Json::array({good}));
    CHECK(fine.exitCode == 0);
    CHECK(fine.err.find("colour") != std::string::npos);
    const auto lines = linesOf(fine.out);
    REQUIRE(lines.size() == 2);
    for (const Json& line : lines) {
        CHECK(line["id"] == "good");
        CHECK(line["interval"] == "octave");
        CHECK(line["direction"] == "wide");
        CHECK(line["beat_hz"].get<double>() == Approx(1.0).margin(0.05));
    }
    CHECK(lines[0]["window_s"] == 1.0);
    CHECK(lines[1]["window_s"] == 2.0);

    const Json bad = {{"id", "bad"}, {"file", "octave.wav"}, {"lower", "C4"}, {"window", {1, 2}}};
    const auto mixed = batch(Json::array({bad, good}));
    CHECK(mixed.exitCode == 3);
    const auto both = linesOf(mixed.out);
    REQUIRE(both.size() == 4);
    CHECK(both[0]["status"] == "error");
    CHECK(both[0]["id"] == "bad");
    CHECK_FALSE(both[0]["error"].get<std::string>().empty());
    CHECK(both[2]["id"] == "good");
}

TEST_CASE("the partials that meet are explained and drawn, not left to be believed", "[cli]") {
    const test::TemporaryFolder folder;
    const double upper = 1.5 * kC4 * std::exp2(4.0 / 1200.0);
    const std::string file = written(folder, "fifth.wav", aloneThenBoth(kC4, upper));
    const std::string plot = (folder.path() / "fifth.svg").string();
    const std::string pair =
        "'" + file + "' --lower C4 --upper G4 --a4 440 --from 2.8 --window 2.5 ";
    const auto run =
        beats(pair + "--alone '" + file + "' --alone-to 2.7 --explain --plot '" + plot + "'");
    REQUIRE(run.exitCode == 0);
    CHECK(run.out.find("3 : 2") != std::string::npos);
    CHECK(run.out.find("6 : 4") != std::string::npos);
    CHECK(run.out.find("heard alone") != std::string::npos);
    std::ifstream in(plot);
    const std::string svg{std::istreambuf_iterator<char>(in), {}};
    CHECK(svg.rfind("<svg", 0) == 0);
    CHECK(svg.find("</svg>") != std::string::npos);
    // 4 cents wide of pure beat 2.42 a second at 3 : 2, so within two seconds the ear's pair has crests to mark.
    CHECK(svg.find("stroke-width='3.0'/>\n<line") != std::string::npos);
    CHECK(svg.find("wide") != std::string::npos);
    CHECK(beats(pair + "--plot '/no such folder/a.svg'").exitCode == 2);
    CHECK(test::runCommandLine("beats --batch list.json --plot a.svg").exitCode == 2);
}
