#include "audio/file_source.hpp"
#include "audio/pitch_listener.hpp"
#include "tests/support/deadline.hpp"
#include "tests/support/sound_files.hpp"
#include "tests/support/temporary_folder.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>
#include <vector>

using namespace quillbench;

namespace {

constexpr double kHeldRate = 48000.0;

void hold(std::vector<float>& sound, double hz, double seconds) {
    const auto count = static_cast<std::size_t>(seconds * kHeldRate);
    sound.reserve(sound.size() + count);
    for (std::size_t i = 0; i < count; ++i) {
        const double phase = 2.0 * std::numbers::pi * hz * static_cast<double>(i) / kHeldRate;
        const double value = hz > 0.0 ? std::sin(phase) + 0.4 * std::sin(2.0 * phase + 1.0) : 0.0;
        sound.push_back(static_cast<float>(0.2 * value));
    }
}

PitchHearing pitchesIn(const std::vector<float>& sound, ClockCalibration clock = {}) {
    const test::TemporaryFolder folder;
    const auto path = folder.path() / "held.wav";
    REQUIRE(test::writeSound(
        path, sound, static_cast<int>(kHeldRate), 1, SF_FORMAT_WAV | SF_FORMAT_FLOAT));
    auto source = FileSource::open(path, Pace::AsTaken);
    REQUIRE(source);
    const PitchListener listener(std::move(*source), clock);
    REQUIRE(test::becomesTrue([&] { return listener.hearing().source.phase == EnginePhase::Ended; },
                              std::chrono::seconds(60)));
    return listener.hearing();
}

} // namespace

TEST_CASE("tones held one after another are told one by one", "[dsp]") {
    std::vector<float> sound;
    hold(sound, 0.0, 1.0);
    hold(sound, 441.2, 4.0);
    hold(sound, 0.0, 0.8);
    hold(sound, 494.0, 4.0);
    hold(sound, 523.3, 4.0);
    const PitchHearing heard = pitchesIn(sound);
    REQUIRE(heard.before.size() == 2);
    REQUIRE(heard.tone);
    CHECK(interval(Hertz(441.2), heard.before[0].pitch).value() == Approx(0.0).margin(0.1));
    CHECK(interval(Hertz(494.0), heard.before[1].pitch).value() == Approx(0.0).margin(0.1));
    CHECK(interval(Hertz(523.3), heard.tone->pitch).value() == Approx(0.0).margin(0.1));
    CHECK(heard.sounds);
}

TEST_CASE("the clock of the device counts in what is heard and in its uncertainty", "[dsp]") {
    std::vector<float> sound;
    hold(sound, 440.0, 4.0);
    // A clock that runs a thousandth fast hears everything a thousandth low; 100 ppm of doubt are 0.173 cents.
    const PitchHearing heard = pitchesIn(sound, ClockCalibration{1000.0, 100.0});
    REQUIRE(heard.tone);
    CHECK(heard.tone->pitch.value() == Approx(440.44).margin(0.01));
    CHECK(heard.tone->uncertainty.value() > 0.173);
    CHECK(heard.tone->uncertainty.value() < 0.2);
}

TEST_CASE("silence has no tone", "[dsp]") {
    const PitchHearing heard = pitchesIn(std::vector<float>(48000, 0.0F));
    CHECK_FALSE(heard.sounds);
    CHECK_FALSE(heard.tone);
    CHECK(heard.before.empty());
}
