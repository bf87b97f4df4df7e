#include "core/analysis/microphone_monitor.hpp"
#include "tests/support/string_trials.hpp"

#include <catch2/catch.hpp>

#include <functional>

using namespace quillbench;
using namespace quillbench::trials;

namespace {

const SampleRate kMonitorRate(48000.0);
constexpr std::size_t kNoteFrames = 96000; // a pluck every two seconds
constexpr std::size_t kDampedAfter = 72000;

/// Four plucks, each held for 1.5 s and then damped, in a room with steady noise.
struct Playing {
    std::vector<float> sound = std::vector<float>(4 * kNoteFrames + 24000);
    std::vector<std::size_t> plucks;

    Playing(std::uint64_t seed, double snrDb, bool pink) {
        Random random(seed);
        for (std::size_t note = 0; note < 4; ++note) {
            const std::size_t at = 24000 + note * kNoteFrames;
            plucks.push_back(at);
            SyntheticPluck(drawString(random, 65.0 * std::exp2(random.uniform(0.0, 4.0))))
                .addTo(
                    sound,
                    kMonitorRate,
                    static_cast<double>(at),
                    Decibel::fromAmplitude(0.1),
                    SyntheticRelease{Seconds(static_cast<double>(kDampedAfter) / kMonitorRate.hz()),
                                     Seconds(random.uniform(0.05, 0.3))});
            addKnock(sound,
                     kMonitorRate,
                     random,
                     static_cast<double>(at + kDampedAfter + 2000),
                     Decibel::fromAmplitude(0.01));
        }
        addNoise(sound, random, Decibel::fromAmplitude(0.1 * std::pow(10.0, -snrDb / 20.0)), pink);
    }

    [[nodiscard]] MicrophoneState heard() const {
        MicrophoneMonitor monitor(kMonitorRate);
        std::size_t next = 0;
        for (std::size_t i = 0; i < sound.size(); i += 480) {
            monitor.push(std::span(sound).subspan(i, std::min<std::size_t>(480, sound.size() - i)));
            if (next < plucks.size() && plucks[next] + 4800 < i) {
                monitor.pluck(FrameCount(static_cast<std::int64_t>(i + 480 - plucks[next])));
                ++next;
            }
        }
        return monitor.state();
    }
};

/// A level control as recorders have it: 10 ms down, `releaseS` up, at most ±12 dB.
void controlGain(std::span<float> sound, double releaseS) {
    double gainDb = 0.0;
    double power = 1e-6;
    for (float& sample : sound) {
        const double value = static_cast<double>(sample);
        power += (value * value - power) * 1.0 / (0.01 * 48000.0);
        const double wish = std::clamp(-23.0 - 10.0 * std::log10(power + 1e-12), -12.0, 12.0);
        gainDb += (wish - gainDb) / (48000.0 * (wish < gainDb ? 0.01 : releaseS));
        sample *= static_cast<float>(std::pow(10.0, gainDb / 20.0));
    }
}

/// A gate that closes 0.15 s after the level fell below a threshold; what is left then is `leftDb`.
void gate(std::span<float> sound, double thresholdDb, double leftDb) {
    double power = 0.0;
    double gain = 1.0;
    int below = 0;
    for (float& sample : sound) {
        const double value = static_cast<double>(sample);
        power += (value * value - power) / (0.01 * 48000.0);
        below = 10.0 * std::log10(power + 1e-15) < thresholdDb ? below + 1 : 0;
        const double wish = below > 7200 ? std::pow(10.0, leftDb / 20.0) : 1.0;
        gain += (wish - gain) / (48000.0 * 0.004);
        sample *= static_cast<float>(leftDb < -150.0 && below > 9600 ? 0.0 : gain);
    }
}

} // namespace

TEST_CASE("an honest microphone is not accused", "[analysis]") {
    for (std::uint64_t seed = 1; seed <= 5; ++seed) {
        Playing playing(seed, 15.0 + 6.0 * static_cast<double>(seed), seed % 2 == 0);
        const MicrophoneState state = playing.heard();
        INFO("seed " << seed);
        CHECK(!state.automaticGain);
        CHECK(!state.gated);
        CHECK(!state.clipped);
    }
}

TEST_CASE("automatic gain is noticed", "[analysis]") {
    int noticed = 0;
    for (std::uint64_t seed = 1; seed <= 5; ++seed) {
        Playing playing(100 + seed, 20.0 + 4.0 * static_cast<double>(seed), seed % 2 == 0);
        controlGain(playing.sound, 0.2 + 0.25 * static_cast<double>(seed));
        const MicrophoneState state = playing.heard();
        INFO("seed " << seed);
        noticed += state.automaticGain ? 1 : 0;
        CHECK(!state.gated);
    }
    CHECK(noticed >= 4);
}

TEST_CASE("gating and suppression are noticed", "[analysis]") {
    int noticed = 0;
    for (std::uint64_t seed = 1; seed <= 5; ++seed) {
        const double snrDb = 25.0 + 4.0 * static_cast<double>(seed);
        Playing playing(200 + seed, snrDb, seed % 2 == 0);
        gate(playing.sound,
             -20.0 - snrDb + 9.0,
             seed % 3 == 0 ? -200.0 : -20.0 - 2.0 * static_cast<double>(seed));
        const MicrophoneState state = playing.heard();
        INFO("seed " << seed);
        noticed += state.gated ? 1 : 0;
        CHECK(!state.automaticGain);
    }
    CHECK(noticed >= 4);
}

TEST_CASE("level, peak and floor are what was put in", "[analysis]") {
    MicrophoneMonitor monitor(kMonitorRate);
    std::vector<float> sound(48000);
    Random random(3);
    addNoise(sound, random, Decibel::fromAmplitude(0.01), false);
    monitor.push(sound);
    CHECK(monitor.state().level.value() == Approx(-40.0).margin(0.5));
    CHECK(monitor.state().noiseFloor.value() == Approx(-40.0).margin(1.0));
    for (std::size_t i = 0; i < sound.size(); ++i) {
        sound[i] = static_cast<float>(0.5 * std::sin(0.05 * static_cast<double>(i)));
    }
    monitor.push(sound);
    CHECK(monitor.state().level.value() == Approx(-9.03).margin(0.1));
    CHECK(monitor.state().peak.value() == Approx(-6.02).margin(0.1));
    CHECK(monitor.state().noiseFloor.value() == Approx(-40.0).margin(1.0));
}

TEST_CASE("clipping is noticed at full scale and below, and forgotten", "[analysis]") {
    MicrophoneMonitor monitor(kMonitorRate);
    std::vector<float> sound(9600);
    const float ceiling = GENERATE(1.0F, 0.6F);
    for (std::size_t i = 0; i < sound.size(); ++i) {
        const auto wave = static_cast<float>(1.5 * std::sin(0.03 * static_cast<double>(i)));
        sound[i] = std::clamp(wave, -ceiling, ceiling);
    }
    monitor.push(sound);
    CHECK(monitor.state().clipped);
    std::vector<float> quiet(96000);
    Random random(4);
    addNoise(quiet, random, Decibel::fromAmplitude(0.1), false);
    monitor.push(quiet);
    CHECK(!monitor.state().clipped);
}

TEST_CASE("silence, a constant and a gap are nothing to accuse", "[analysis]") {
    MicrophoneMonitor monitor(kMonitorRate);
    std::vector<float> nothing(96000);
    monitor.push(nothing);
    CHECK(monitor.state().level.value() == Approx(-200.0));
    CHECK(!monitor.state().gated);
    std::fill(nothing.begin(), nothing.end(), 0.05F);
    monitor.push(nothing);
    CHECK(!monitor.state().clipped);
    CHECK(!monitor.state().gated);
    // Loud noise, a gap, quiet noise: the fall between them was never heard.
    for (int turn = 0; turn < 4; ++turn) {
        std::vector<float> noise(24000);
        Random random(static_cast<std::uint64_t>(turn));
        addNoise(noise, random, Decibel::fromAmplitude(turn % 2 == 0 ? 0.1 : 0.001), false);
        monitor.gap();
        monitor.push(noise);
    }
    CHECK(!monitor.state().gated);
}
