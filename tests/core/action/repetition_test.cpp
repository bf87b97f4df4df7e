#include "core/action/repetition.hpp"
#include "tests/core/virtual/playing.hpp"

#include <catch2/catch.hpp>

#include <vector>

using namespace quillbench;
using namespace quillbench::test;

namespace {

constexpr std::size_t kRepeatedKey = 30;

/// One register alone, a key struck at the given instants, each time held for half of the time to the next.
std::vector<float> struck(const std::vector<double>& at,
                          double held,
                          const std::vector<StringFault>& faults = {},
                          std::uint64_t seed = 1) {
    const Instrument& instrument = exampleInstruments().front();
    VirtualSettings settings = quiet(instrument, seed);
    settings.actionNoise = true;
    settings.registersOn = {true, false, false};
    settings.room.noise = Decibel::fromAmplitude(1e-4);
    settings.faults = faults;
    VirtualInstrument sounding(instrument, settings);
    for (const double t : at) {
        const auto down = static_cast<std::int64_t>(t * 48000.0);
        const auto up = static_cast<std::int64_t>((t + held) * 48000.0);
        REQUIRE(sounding.apply(onKey(VirtualCommand::Kind::KeyDown, down, kRepeatedKey, 0.8)));
        REQUIRE(sounding.apply(onKey(VirtualCommand::Kind::KeyUp, up, kRepeatedKey)));
    }
    return rendered(sounding, static_cast<std::size_t>((at.back() + 1.5) * 48000.0));
}

std::vector<double> evenly(int strokes, double perSecond) {
    std::vector<double> at;
    at.reserve(static_cast<std::size_t>(strokes));
    for (int i = 0; i < strokes; ++i) {
        at.push_back(0.4 + static_cast<double>(i) / perSecond);
    }
    return at;
}

Hertz repeatedPitch() {
    return nominalPitch(exampleInstruments().front(), {0, kRepeatedKey});
}

} // namespace

TEST_CASE("ten strokes are ten plucks", "[action]") {
    const double rate = GENERATE(2.0, 4.0, 6.0, 9.0);
    const auto seed = GENERATE(1U, 2U, 3U);
    INFO(rate << " a second");
    const RepetitionReading reading = hearRepetition(
        struck(evenly(10, rate), 0.5 / rate, {}, seed), SampleRate(48000.0), repeatedPitch());
    CHECK(reading.plucks.size() == 10);
    CHECK(reading.missed == 0);
    CHECK_FALSE(reading.hangs);
    CHECK_FALSE(reading.missesFrom);
    CHECK(reading.usualRate == Approx(rate).epsilon(0.03));
    for (std::size_t i = 0; i < reading.plucks.size(); ++i) {
        // The key travels before its jack plucks.
        const double late = reading.plucks[i].at.count() - evenly(10, rate)[i];
        CHECK(late > 0.0);
        CHECK(late < 0.035);
    }
    REQUIRE(reading.weakestDb);
    CHECK(*reading.weakestDb > -4.0);
}

TEST_CASE("a hanging jack plucks once and no more", "[action]") {
    const StringFault hanging{StringFault::Kind::HangingJack, {0, kRepeatedKey}, 0.0};
    const RepetitionReading reading = hearRepetition(
        struck(evenly(10, 4.0), 0.12, {hanging}), SampleRate(48000.0), repeatedPitch());
    CHECK(reading.plucks.size() == 1);
    CHECK(reading.missed == 9);
    CHECK(reading.hangs);
}

TEST_CASE("strokes that pluck nothing are counted, with the rate at which it began", "[action]") {
    std::vector<double> at = evenly(10, 5.0);
    at.erase(at.begin() + 6);
    const RepetitionReading reading =
        hearRepetition(struck(at, 0.1), SampleRate(48000.0), repeatedPitch());
    CHECK(reading.plucks.size() == 9);
    CHECK(reading.missed == 1);
    CHECK_FALSE(reading.hangs);
    REQUIRE(reading.missesFrom);
    CHECK(*reading.missesFrom == Approx(5.0).epsilon(0.05));
}

TEST_CASE("silence is nothing", "[action]") {
    const std::vector<float> silence(48000, 0.0F);
    const RepetitionReading reading = hearRepetition(silence, SampleRate(48000.0), repeatedPitch());
    CHECK(reading.plucks.empty());
    CHECK_FALSE(reading.hangs);
}
