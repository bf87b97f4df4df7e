#include "core/analysis/analyser.hpp"
#include "core/instrument/examples.hpp"
#include "core/virtual/virtual_instrument.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <memory>
#include <optional>
#include <vector>

using namespace quillbench;

namespace {

const SampleRate kPluckedAgainRate(48000.0);

/// One key of the first example's front 8′, played alone.
struct Bench {
    Bench(std::size_t pressed, std::uint64_t seed)
        : instrument(exampleInstruments().front()),
          key(pressed) {
        VirtualSettings settings;
        settings.sampleRate = kPluckedAgainRate;
        settings.seed = seed;
        settings.room.noise = Decibel::fromAmplitude(2e-4);
        const std::size_t choir = instrument.registers.front().choir;
        for (std::size_t c = 0; c < instrument.choirs.size(); ++c) {
            std::vector<Hertz> pitches;
            for (std::size_t s = 0; s < instrument.choirs[c].strings.size(); ++s) {
                pitches.push_back(nominalPitch(instrument, {c, s}));
                if (c == choir) {
                    target->strings.push_back({{c, s}, pitches.back(), 0.0});
                }
            }
            settings.pitches.push_back(std::move(pitches));
        }
        settings.registersOn.assign(instrument.registers.size(), false);
        settings.registersOn.front() = true;
        sounding = std::make_unique<VirtualInstrument>(instrument, settings);
    }

    void at(double seconds, VirtualCommand::Kind kind) {
        VirtualCommand command;
        command.kind = kind;
        command.at = FrameIndex(static_cast<std::int64_t>(seconds * kPluckedAgainRate.hz()));
        command.manual = instrument.registers.front().manual;
        command.key = key;
        REQUIRE(sounding->apply(command));
    }

    /// What the live analysis makes of the first `seconds`.
    void listen(double seconds) {
        std::vector<float> sound(static_cast<std::size_t>(seconds * kPluckedAgainRate.hz()));
        sounding->render(sound);
        Analyser analyser(kPluckedAgainRate, {});
        analyser.setTarget(target);
        constexpr std::size_t kBlock = 256;
        for (std::size_t i = 0; i < sound.size(); i += kBlock) {
            const auto shot =
                analyser.push({FrameIndex(static_cast<std::int64_t>(i)),
                               std::span(sound).subspan(i, std::min(kBlock, sound.size() - i)),
                               false});
            if (shot) {
                plucks = shot->pluckNumber;
                if (shot->finished) {
                    finished.push_back(*shot->finished);
                }
            }
        }
    }

    Instrument instrument;
    std::size_t key;
    std::shared_ptr<AnalysisTarget> target = std::make_shared<AnalysisTarget>();
    std::unique_ptr<VirtualInstrument> sounding;
    std::vector<StringReading> finished;
    std::uint64_t plucks = 0;
};

using Kind = VirtualCommand::Kind;

} // namespace

TEST_CASE("a string plucked again after a fifth of a second is read as if plucked once",
          "[analysis]") {
    const auto key = static_cast<std::size_t>(GENERATE(10, 17, 24, 33, 45));
    const auto seed = static_cast<std::uint64_t>(GENERATE(1, 3));
    INFO("key " << key << ", seed " << seed);
    Bench once(key, seed);
    once.at(0.6, Kind::KeyDown);
    once.listen(4.0);
    REQUIRE(once.finished.size() == 1);
    Bench twice(key, seed);
    twice.at(0.6, Kind::KeyDown);
    twice.at(0.74, Kind::KeyUp);
    twice.at(0.8, Kind::KeyDown);
    twice.listen(4.2);
    REQUIRE_FALSE(twice.finished.empty());
    CHECK(twice.finished.size() <= 2);
    const double alone = once.finished[0].deviation.value();
    const StringReading& later = twice.finished.back();
    CHECK(later.standing == Standing::Ok);
    CHECK(later.string.course == key);
    CHECK(std::abs(later.deviation.value() - alone) < 0.5);
    // The first is short: it is passed over, or read with a wide uncertainty that covers the truth.
    const StringReading& first = twice.finished.front();
    if (first.standing == Standing::Nothing) {
        CHECK(first.has(Warning::TooShort));
    } else {
        CHECK(first.string.course == key);
        CHECK(std::abs(first.deviation.value() - alone) <
              3.0 * first.deviationUncertainty.value() + 0.5);
    }
}

TEST_CASE("a jack that falls back is no pluck", "[analysis]") {
    const auto key = static_cast<std::size_t>(GENERATE(3, 10, 17, 24, 33, 45, 55));
    const double held = GENERATE(0.5, 1.0, 2.0);
    INFO("key " << key << ", held " << held << " s");
    Bench bench(key, 5);
    bench.at(0.6, Kind::KeyDown);
    bench.at(0.6 + held, Kind::KeyUp);
    bench.listen(0.6 + held + 3.0);
    CHECK(bench.plucks == 1);
    REQUIRE(bench.finished.size() == 1);
    CHECK(bench.finished[0].string.course == key);
    CHECK(bench.finished[0].standing != Standing::Nothing);
}
