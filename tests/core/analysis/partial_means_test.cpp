#include "core/analysis/analyser.hpp"
#include "core/dsp/string_listener.hpp"
#include "tests/core/virtual/playing.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <memory>
#include <vector>

using namespace quillbench;
using namespace quillbench::test;

TEST_CASE("a partial is read at its mean frequency, not where it is loudest", "[analysis]") {
    // The truth comes from the generator's own state: each partial has two polarisations a part of a cent apart, of which
    // the softer one lasts longer.
    const Instrument& made = *findExample("single-8-8");
    std::vector<double> off;
    for (const std::size_t course : {6U, 15U, 22U, 27U, 33U, 38U, 42U}) {
        for (const std::uint64_t seed : {1U, 2U, 3U}) {
            VirtualSettings settings = quiet(made, seed);
            settings.room.noise = Decibel::fromAmplitude(3e-4);
            VirtualInstrument instrument(made, settings);
            constexpr std::int64_t kPluckFrame = 24000;
            instrument.apply(onString(VirtualCommand::Kind::PluckString, kPluckFrame, {0, course}));
            const std::vector<float> sound = rendered(instrument, 24000 + 48000 * 5 / 2 + 2000);
            const auto records = plucks(instrument);
            REQUIRE(records.size() == 1);
            const PluckTruth truth = instrument.truth(records[0]);
            StringListener listener(settings.sampleRate);
            ListeningFor what;
            what.string = {0, course};
            what.target = settings.pitches[0][course];
            listener.begin(what, records[0].at);
            listener.push({FrameIndex(0), sound, false});
            const StringReading reading = listener.reading();
            REQUIRE(reading.standing == Standing::Ok);
            for (const auto& partial : truth.partials) {
                if (partial.number > 4 || partial.used.count() < 2.3) {
                    continue;
                }
                for (const PartialReading& heard : reading.partials) {
                    if (heard.number == partial.number) {
                        off.push_back(std::abs(interval(partial.mean, heard.frequency).value()));
                    }
                }
            }
        }
    }
    REQUIRE(off.size() > 30);
    std::sort(off.begin(), off.end());
    INFO(off.size() << " partials, median " << off[off.size() / 2] << ", 90 % "
                    << off[off.size() * 9 / 10]);
    CHECK(off[off.size() / 2] < 0.06);
    CHECK(off[off.size() * 9 / 10] < 0.6);
}

TEST_CASE("a partial that matters is heard out to its end", "[analysis]") {
    // A fundamental that dies soon leaves its slower polarisation under the noise, where only a model of both finds it.
    const Instrument& made = *findExample("single-8-8");
    std::vector<double> plain;
    std::vector<double> closely;
    for (const std::size_t course : {15U, 19U, 24U, 30U, 36U, 41U}) {
        for (const std::uint64_t seed : {1U, 2U}) {
            VirtualSettings settings = quiet(made, seed);
            settings.room.noise = Decibel::fromAmplitude(3e-4);
            VirtualInstrument instrument(made, settings);
            instrument.apply(onString(VirtualCommand::Kind::PluckString, 24000, {0, course}));
            const std::vector<float> sound = rendered(instrument, 24000 + 48000 * 3);
            const auto records = plucks(instrument);
            REQUIRE(records.size() == 1);
            const PluckTruth truth = instrument.truth(records[0]);
            for (const bool heardOut : {false, true}) {
                auto target = std::make_shared<AnalysisTarget>();
                target->strings.push_back({{0, course}, settings.pitches[0][course], 0.0});
                target->asked = StringId{0, course};
                if (heardOut) {
                    target->closely[{0, course}] = {1, 2};
                }
                Analyser analyser(settings.sampleRate, {});
                analyser.setTarget(target);
                std::optional<StringReading> finished;
                for (std::size_t i = 0; i + 256 <= sound.size(); i += 256) {
                    const auto shot = analyser.push({FrameIndex(static_cast<std::int64_t>(i)),
                                                     std::span<const float>(sound).subspan(i, 256),
                                                     false});
                    finished = shot && shot->finished ? shot->finished : finished;
                }
                REQUIRE(finished);
                for (const auto& partial : truth.partials) {
                    for (const PartialReading& heard : finished->partials) {
                        if (heard.number == partial.number && partial.number <= 2) {
                            (heardOut ? closely : plain)
                                .push_back(
                                    std::abs(interval(partial.mean, heard.frequency).value()));
                        }
                    }
                }
            }
        }
    }
    REQUIRE(plain.size() == closely.size());
    REQUIRE(closely.size() >= 20);
    std::sort(plain.begin(), plain.end());
    std::sort(closely.begin(), closely.end());
    const auto late = [](const std::vector<double>& off) { return off[off.size() * 9 / 10]; };
    INFO("90 %: plain " << late(plain) << ", closely " << late(closely) << " cents");
    CHECK(closely[closely.size() / 2] < 0.05);
    CHECK(late(closely) < 0.35);
    CHECK(late(closely) < late(plain));
}
