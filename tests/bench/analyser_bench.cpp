// Cost of listening: "share_of_core" is processor time over the time of the sound.
#include "core/analysis/analyser.hpp"
#include "core/analysis/key_recogniser.hpp"
#include "core/analysis/microphone_monitor.hpp"
#include "core/dsp/pluck_detector.hpp"
#include "tests/support/key_trials.hpp"

#include <benchmark/benchmark.h>

using namespace quillbench;
using namespace quillbench::trials;

namespace {

/// Ten seconds: a pluck every `every` seconds, up and down a 16′ choir.
std::vector<float> playing(SampleRate rate, double every) {
    std::vector<float> sound(static_cast<std::size_t>(10.0 * rate.hz()));
    Random random(3);
    addNoise(sound, random, Decibel::fromAmplitude(5e-4), true);
    const AnalysisTarget target = keyTarget(Around::Quiet, 0.5);
    for (int i = 0; 0.5 + every * i < 10.0; ++i) {
        const auto key = static_cast<std::size_t>((11 * i) % kKeys);
        SyntheticPluck(drawString(random, target.strings[key].target.value()))
            .addTo(sound,
                   rate,
                   rate.hz() * (0.5 + every * i),
                   Decibel::fromAmplitude(0.1),
                   SyntheticRelease{Seconds(0.9 * every), Seconds(0.1)});
    }
    return sound;
}

void setShare(benchmark::State& state, double seconds) {
    state.counters["share_of_core"] =
        benchmark::Counter(static_cast<double>(state.iterations()) * seconds,
                           benchmark::Counter::kIsRate | benchmark::Counter::kInvert);
}

void analyserListens(benchmark::State& state) {
    const SampleRate rate(static_cast<double>(state.range(0)));
    const std::vector<float> sound = playing(rate, static_cast<double>(state.range(1)) / 1000.0);
    Analyser analyser(rate, {});
    analyser.setTarget(std::make_shared<AnalysisTarget>(keyTarget(Around::Quiet, 0.5)));
    std::int64_t frame = 0;
    for (auto unused : state) {
        static_cast<void>(unused);
        for (std::size_t i = 0; i + 256 <= sound.size(); i += 256) {
            benchmark::DoNotOptimize(
                analyser.push({FrameIndex(frame), std::span(sound).subspan(i, 256), false}));
            frame += 256;
        }
    }
    setShare(state, 10.0);
}

void pluckDetectorListens(benchmark::State& state) {
    const SampleRate rate(48000.0);
    const std::vector<float> sound = playing(rate, 1.0);
    PluckDetector detector(rate);
    std::int64_t frame = 0;
    for (auto unused : state) {
        static_cast<void>(unused);
        for (std::size_t i = 0; i + 400 <= sound.size(); i += 400) {
            benchmark::DoNotOptimize(
                detector.push({FrameIndex(frame), std::span(sound).subspan(i, 400), false}));
            frame += 400;
        }
    }
    setShare(state, 10.0);
}

void microphoneIsWatched(benchmark::State& state) {
    const SampleRate rate(48000.0);
    const std::vector<float> sound = playing(rate, 1.0);
    MicrophoneMonitor monitor(rate);
    for (auto unused : state) {
        static_cast<void>(unused);
        monitor.push(sound);
    }
    setShare(state, 10.0);
}

void keyIsLookedFor(benchmark::State& state) {
    const KeyTrial trial = makeKeyTrial(Around::OldNotes, 0.5, 20, 5, SampleRate(48000.0));
    KeyRecogniser recogniser(SampleRate(48000.0));
    recogniser.setTarget(trial.target);
    for (auto unused : state) {
        static_cast<void>(unused);
        benchmark::DoNotOptimize(
            recogniser.look(static_cast<int>(state.range(0)), trial.sound, trial.pluck));
    }
}

} // namespace

// Rate; milliseconds from pluck to pluck.
BENCHMARK(analyserListens)
    ->Args({48000, 3000})
    ->Args({48000, 1000})
    ->Args({48000, 400})
    ->Args({96000, 1000})
    ->Unit(benchmark::kMillisecond);
BENCHMARK(pluckDetectorListens)->Unit(benchmark::kMillisecond);
BENCHMARK(microphoneIsWatched)->Unit(benchmark::kMillisecond);
BENCHMARK(keyIsLookedFor)->DenseRange(0, KeyRecogniser::kLooks - 1)->Unit(benchmark::kMicrosecond);
