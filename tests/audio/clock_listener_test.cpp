#include "audio/clock_listener.hpp"
#include "audio/file_source.hpp"
#include "core/support/random.hpp"
#include "tests/support/deadline.hpp"
#include "tests/support/sound_files.hpp"
#include "tests/support/temporary_folder.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>
#include <vector>

using namespace quillbench;

namespace {

constexpr double kToneRate = 8000.0;

/// A device whose clock runs `ppm` fast hears a tone of `hz` for `seconds`, in noise of that standard deviation.
void append(std::vector<float>& sound, double hz, double level, double ppm, double seconds) {
    Random random(17);
    const auto begin = sound.size();
    const auto count = static_cast<std::size_t>(seconds * kToneRate);
    for (std::size_t i = 0; i < count; ++i) {
        const double time = static_cast<double>(begin + i) / (kToneRate * (1.0 + ppm * 1e-6));
        sound.push_back(static_cast<float>(level * std::sin(2.0 * std::numbers::pi * hz * time) +
                                           0.002 * random.normal()));
    }
}

ClockHearing heardToItsEnd(const std::vector<float>& sound, const TrustedTone& tone) {
    const test::TemporaryFolder folder;
    const auto path = folder.path() / "tone.wav";
    REQUIRE(test::writeSound(
        path, sound, static_cast<int>(kToneRate), 1, SF_FORMAT_WAV | SF_FORMAT_FLOAT));
    auto source = FileSource::open(path, Pace::AsTaken);
    REQUIRE(source);
    const ClockListener listener(std::move(*source), tone);
    REQUIRE(test::becomesTrue([&] { return listener.hearing().source.phase == EnginePhase::Ended; },
                              std::chrono::seconds(60)));
    return listener.hearing();
}

} // namespace

TEST_CASE("a tone that begins late and stops again still calibrates the clock", "[dsp]") {
    std::vector<float> sound;
    append(sound, 440.0, 0.0, 37.0, 4.0);
    append(sound, 440.0, 0.1, 37.0, 20.0);
    append(sound, 440.0, 0.0, 37.0, 3.0);
    const ClockHearing heard = heardToItsEnd(sound, {Hertz(440.0), 0.1});
    REQUIRE(heard.best);
    CHECK(heard.best->ppm == Approx(37.0).margin(0.3));
    // The tone's own ± is a part of it.
    CHECK(heard.best->ppmUncertainty >= 0.1);
    CHECK(heard.best->ppmUncertainty < 0.3);
    // What is heard now is told apart from what is known.
    CHECK(heard.standing == ClockHearing::Standing::NotHeard);
}

TEST_CASE("the uncertainty of a clock shrinks as the tone goes on", "[dsp]") {
    std::vector<float> sound;
    append(sound, 600.0, 0.02, -21.0, 7.0);
    const ClockHearing early = heardToItsEnd(sound, {Hertz(600.0), 0.0});
    append(sound, 600.0, 0.02, -21.0, 23.0);
    const ClockHearing late = heardToItsEnd(sound, {Hertz(600.0), 0.0});
    REQUIRE(early.best);
    REQUIRE(late.best);
    CHECK(late.standing == ClockHearing::Standing::Known);
    CHECK(late.best->ppmUncertainty < early.best->ppmUncertainty / 3.0);
    CHECK(std::fabs(late.best->ppm + 21.0) < 4.0 * late.best->ppmUncertainty + 1e-3);
}

TEST_CASE("noise, a wavering tone and a tone elsewhere calibrate nothing and say so", "[dsp]") {
    std::vector<float> sound;
    SECTION("noise") {
        append(sound, 440.0, 0.0, 0.0, 12.0);
        CHECK(heardToItsEnd(sound, {Hertz(440.0), 0.1}).standing ==
              ClockHearing::Standing::NotHeard);
    }
    SECTION("a wavering tone") {
        for (int i = 0; i < 12 * static_cast<int>(kToneRate); ++i) {
            const double t = i / kToneRate;
            sound.push_back(static_cast<float>(
                0.1 * std::sin(2.0 * std::numbers::pi * 440.0 * t + 2.0 * std::sin(3.0 * t))));
        }
        CHECK(heardToItsEnd(sound, {Hertz(440.0), 0.1}).standing ==
              ClockHearing::Standing::NotHeard);
    }
    SECTION("a tone three cents away") {
        append(sound, 440.8, 0.1, 0.0, 8.0);
        const ClockHearing heard = heardToItsEnd(sound, {Hertz(440.0), 0.1});
        CHECK(heard.standing == ClockHearing::Standing::WrongTone);
        CHECK_FALSE(heard.why.empty());
    }
    CHECK_FALSE(heardToItsEnd(sound, {Hertz(440.0), 0.1}).best);
}
