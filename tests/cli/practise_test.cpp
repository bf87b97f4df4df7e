#include "core/instrument/examples.hpp"
#include "core/practise/practice_output.hpp"
#include "core/practise/practice_pair.hpp"
#include "core/temperament/catalogue.hpp"
#include "core/temperament/temperament.hpp"
#include "tests/support/command_line.hpp"
#include "tests/support/sound_files.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <cmath>
#include <string>

using namespace quillbench;
using namespace quillbench::test;
using Json = nlohmann::json;

namespace {

constexpr SampleRate kPlayedRate{48000.0};

Hertz temperedPitch(const Note& note) {
    return pitchOf(*findTemperament("werckmeister-3"), ReferencePitch{}, note);
}

/// As it leaves for the loudspeaker at the start of a sitting.
std::vector<float> played(const PracticePair& pair) {
    std::vector<float> sound = soundOf(pair, Seconds(4.0));
    PracticeOutput output{kPlayedRate};
    output.process(sound);
    return sound;
}

} // namespace

TEST_CASE("what practice plays is read by the beats command within its stated uncertainty",
          "[cli]") {
    const TemporaryFolder folder;
    const Instrument& instrument = *findExample("double-8-8-4");
    int asked = 0;
    int inside = 0;
    std::string told;
    for (std::size_t i = 0; i < kPracticeIntervals; ++i) {
        for (const double rate : {0.8, 2.5}) {
            const ExerciseWish wish{
                ExerciseKind::Count, static_cast<PracticeInterval>(i), EarRegister::Tenor};
            const auto exercise = drawExercise(instrument, wish, rate, temperedPitch, 100 + i);
            REQUIRE(exercise);
            const PracticePair pair = pairOf(instrument, *exercise, temperedPitch, kPlayedRate);
            const auto file = folder.path() / "played.wav";
            REQUIRE(writeSound(file, played(pair), 48000, 1, SF_FORMAT_WAV | SF_FORMAT_FLOAT));
            const auto run = runCommandLine(
                "beats '" + file.string() + "' --lower '" + toAscii(exercise->lowerKey) +
                "' --upper '" + toAscii(exercise->upperKey) + "' --lower-choir " +
                instrument.choirs[pair.lower.choir].id + " --upper-choir " +
                instrument.choirs[pair.upper.choir].id +
                " --a4 415 --temperament werckmeister-3 --json");
            INFO(run.err);
            REQUIRE(run.exitCode == 0);
            const Json json = Json::parse(run.out);
            const auto truth = trueBeat(pair);
            REQUIRE(truth);
            const double off = json["beat_hz"].get<double>() - std::abs(truth->perSecond());
            const double uncertainty = json["beat_hz_u"].get<double>();
            told += std::to_string(i) + ": " + std::to_string(off) + " +- " +
                    std::to_string(uncertainty) + "\n";
            inside += std::abs(off) <= 2.0 * uncertainty ? 1 : 0;
            ++asked;
        }
    }
    INFO(told);
    CHECK(asked == 18);
    // 95 % are promised; 14 of 18 or fewer come by chance in 1 case of 100 (binomial).
    CHECK(inside >= 15);
}
