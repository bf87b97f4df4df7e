#include "core/dsp/string_listener.hpp"
#include "tests/core/virtual/playing.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
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
