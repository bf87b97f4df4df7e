#include "core/instrument/examples.hpp"
#include "core/virtual/virtual_instrument.hpp"

#include <benchmark/benchmark.h>

#include <vector>

namespace {

using namespace quillbench;

/// One second of a number of strings sounding at once, four to a key, every one freshly plucked. The whole
/// compass of the largest example is used from the bass up: the most partials there are. Real time is 48 000
/// frames a second, so the time of one iteration in seconds is the part of a core.
void soundingStrings(benchmark::State& state) {
    const Instrument& made = *findExample("double-16-8-8-4");
    VirtualSettings settings;
    for (std::size_t c = 0; c < made.choirs.size(); ++c) {
        std::vector<Hertz> pitches;
        for (std::size_t s = 0; s < made.choirs[c].strings.size(); ++s) {
            pitches.push_back(nominalPitch(made, {c, s}));
        }
        settings.pitches.push_back(pitches);
    }
    settings.room.noise = Decibel::fromAmplitude(1e-4);
    settings.room.hum = Decibel::fromAmplitude(1e-4);
    std::vector<float> block(256);
    while (state.KeepRunning()) {
        state.PauseTiming();
        VirtualInstrument instrument(made, settings);
        const auto strings = static_cast<std::size_t>(state.range(0));
        for (std::size_t i = 0; i < strings; ++i) {
            VirtualCommand pluck;
            pluck.kind = VirtualCommand::Kind::PluckString;
            pluck.string = {i % 4, 4 + 5 * (i / 4)};
            instrument.apply(pluck);
        }
        state.ResumeTiming();
        for (int frame = 0; frame < 48000; frame += 256) {
            instrument.render(block);
            benchmark::DoNotOptimize(block.data());
        }
    }
}

BENCHMARK(soundingStrings)->Arg(0)->Arg(1)->Arg(4)->Arg(16)->Unit(benchmark::kMillisecond);

} // namespace

BENCHMARK_MAIN();
