#include "core/dsp/steady/steady_pitch.hpp"
#include "core/support/random.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

using namespace quillbench;

namespace {

/// A held tone in closed form: partials at whole multiples of a first one that may waver.
struct HeldTone {
    double hz = 440.0;
    std::vector<double> partials{1.0}; ///< amplitudes from the first on
    double seconds = 4.0;
    double noise = 0.0; ///< standard deviation
    double vibratoCents = 0.0;
    double vibratoHz = 5.8;
    double driftCents = 0.0; ///< over the whole
    double rateHz = 48000.0;
    double level = 0.2;
};

// Invented spectra of the kinds: a principal, an oboe (weak first partial), a stopped pipe (odd ones), a fork.
const std::vector<double> kPrincipal{1.0, 0.5, 0.3, 0.3, 0.1, 0.1, 0.05, 0.1};
const std::vector<double> kOboe{0.2, 0.8, 1.0, 0.6, 0.4, 0.2, 0.15, 0.1};
const std::vector<double> kStopped{1.0, 0.01, 0.4, 0.01, 0.1};
const std::vector<double> kFork{1.0};

std::vector<float> soundOf(const HeldTone& tone, std::uint64_t seed = 5) {
    Random random(seed);
    std::vector<float> sound;
    const auto count = static_cast<std::size_t>(tone.seconds * tone.rateHz);
    sound.reserve(count);
    double phase = 0.3;
    for (std::size_t i = 0; i < count; ++i) {
        const double t = static_cast<double>(i) / tone.rateHz;
        const double cents =
            tone.vibratoCents * std::sin(2.0 * std::numbers::pi * tone.vibratoHz * t) +
            tone.driftCents * (t / tone.seconds - 0.5);
        phase += 2.0 * std::numbers::pi * tone.hz * std::exp2(cents / 1200.0) / tone.rateHz;
        double value = 0.0;
        for (std::size_t m = 1; m <= tone.partials.size(); ++m) {
            const double number = static_cast<double>(m);
            value += tone.partials[m - 1] * std::sin(number * phase + number * number);
        }
        sound.push_back(static_cast<float>(tone.level * value + tone.noise * random.normal()));
    }
    return sound;
}

std::optional<SteadyPitch> readingOf(const std::vector<float>& sound, double rateHz = 48000.0) {
    SteadyPitchFollower follower{SampleRate(rateHz)};
    follower.push(sound);
    return follower.reading();
}

double offBy(const SteadyPitch& reading, double hz) {
    return interval(Hertz(hz), reading.pitch).value();
}

} // namespace

TEST_CASE("a steady tone of any kind is read to 0.05 cents at 40 dB over noise", "[dsp]") {
    double worst = 0.0;
    for (const auto& partials : {kPrincipal, kOboe, kStopped, kFork}) {
        for (const double rateHz : {44100.0, 96000.0}) {
            for (const double hz : {207.5, 413.7, 441.3, 883.0}) {
                HeldTone tone;
                tone.hz = hz;
                tone.partials = partials;
                tone.rateHz = rateHz;
                tone.noise = 0.002;
                INFO(hz << " Hz at " << rateHz << ", " << partials.size() << " partials");
                const auto reading = readingOf(soundOf(tone), rateHz);
                REQUIRE(reading);
                const double off = std::fabs(offBy(*reading, hz));
                worst = std::max(worst, off);
                CHECK(off < 0.05);
                CHECK(off < 3.0 * reading->uncertainty.value());
                CHECK(reading->uncertainty.value() < 0.1);
                CHECK(reading->length.count() > 2.0);
            }
        }
    }
    INFO("worst " << worst);
    CHECK(worst > 0.0);
}

TEST_CASE("a slow sample rate is enough for a tone", "[dsp]") {
    HeldTone tone;
    tone.hz = 883.0;
    tone.partials = kOboe;
    tone.rateHz = 8000.0;
    tone.partials.resize(4); // below half the rate
    tone.noise = 0.002;
    const auto reading = readingOf(soundOf(tone), 8000.0);
    REQUIRE(reading);
    CHECK(std::fabs(offBy(*reading, 883.0)) < 0.1);
}

TEST_CASE("in much noise the uncertainty covers the error", "[dsp]") {
    int within = 0;
    double squares = 0.0;
    constexpr int kTones = 40;
    for (int i = 0; i < kTones; ++i) {
        HeldTone tone;
        tone.hz = 400.0 + 2.3 * i;
        tone.partials = i % 2 == 0 ? kFork : kOboe;
        tone.noise = 0.06;
        const auto reading = readingOf(soundOf(tone, static_cast<std::uint64_t>(i + 1)));
        REQUIRE(reading);
        const double ratio = offBy(*reading, tone.hz) / reading->uncertainty.value();
        squares += ratio * ratio;
        within += std::fabs(ratio) < 2.0 ? 1 : 0;
    }
    CHECK(within >= 36);
    CHECK(std::sqrt(squares / kTones) < 1.3);
}

TEST_CASE("a vibrato is read in its middle with a wider uncertainty that covers it", "[dsp]") {
    HeldTone still;
    still.hz = 441.0;
    still.partials = kOboe;
    still.noise = 0.002;
    const auto quiet = readingOf(soundOf(still));
    REQUIRE(quiet);
    for (const double extent : {8.0, 20.0, 30.0}) {
        for (const double rate : {4.7, 5.8, 6.6}) {
            HeldTone tone = still;
            tone.vibratoCents = extent;
            tone.vibratoHz = rate;
            const auto reading = readingOf(soundOf(tone));
            INFO(extent << " cents, " << rate << " a second");
            REQUIRE(reading);
            CHECK(reading->uncertainty > quiet->uncertainty);
            // The standard deviation of a sine is its extent over the root of two; four hundredths of a second blunt it.
            CHECK(reading->waver.value() == Approx(extent / std::sqrt(2.0)).epsilon(0.25));
            CHECK(std::fabs(offBy(*reading, tone.hz)) < 2.0 * reading->uncertainty.value());
            CHECK(std::fabs(offBy(*reading, tone.hz)) < 2.5);
        }
    }
}

TEST_CASE("a tone that sinks is less sure by half of what it sank between its halves", "[dsp]") {
    HeldTone tone;
    tone.driftCents = -8.0;
    tone.noise = 0.002;
    const auto reading = readingOf(soundOf(tone));
    REQUIRE(reading);
    // Halves of a straight fall lie half of it apart.
    CHECK(reading->uncertainty.value() == Approx(2.0).margin(0.6));
    CHECK(std::fabs(offBy(*reading, tone.hz)) < 1.0);
}

TEST_CASE("the hum of the mains beside a soft fork is not taken for it", "[dsp]") {
    HeldTone fork;
    fork.hz = 440.0;
    fork.level = 0.01;
    fork.noise = 0.0003;
    std::vector<float> sound = soundOf(fork);
    for (std::size_t i = 0; i < sound.size(); ++i) {
        const double t = static_cast<double>(i) / 48000.0;
        sound[i] += static_cast<float>(0.02 * std::sin(2.0 * std::numbers::pi * 50.0 * t) +
                                       0.005 * std::sin(2.0 * std::numbers::pi * 100.0 * t + 1.0));
    }
    const auto reading = readingOf(sound);
    REQUIRE(reading);
    CHECK(std::fabs(offBy(*reading, 440.0)) < 0.3);
}

TEST_CASE("silence, a constant, noise and a tone too short have no pitch", "[dsp]") {
    CHECK_FALSE(readingOf(std::vector<float>(192000, 0.0F)));
    CHECK_FALSE(readingOf(std::vector<float>(192000, 0.3F)));
    HeldTone noise;
    noise.level = 0.0;
    noise.noise = 0.1;
    for (std::uint64_t seed = 1; seed <= 5; ++seed) {
        CHECK_FALSE(readingOf(soundOf(noise, seed)));
    }
    HeldTone brief;
    brief.seconds = 1.9;
    CHECK_FALSE(readingOf(soundOf(brief)));
}

TEST_CASE("another tone, a pause and a gap begin anew", "[dsp]") {
    HeldTone a;
    HeldTone e;
    e.hz = 659.3;
    SteadyPitchFollower follower{SampleRate(48000.0)};
    follower.push(soundOf(a));
    REQUIRE(follower.reading());
    follower.push(soundOf(e));
    REQUIRE(follower.reading());
    CHECK(std::fabs(offBy(*follower.reading(), 659.3)) < 0.1);
    follower.push(std::vector<float>(48000, 0.0F));
    CHECK_FALSE(follower.sounds());
    CHECK_FALSE(follower.reading());
    follower.push(soundOf(a));
    REQUIRE(follower.reading());
    follower.restart();
    CHECK_FALSE(follower.reading());
}

TEST_CASE("the beginning of the next tone is not counted to the one before", "[dsp]") {
    // Half a tone on after times that are no multiple of a look: the worst of what was read while the first still held.
    for (const double seconds : {4.0, 4.07, 4.13, 4.21, 4.29}) {
        HeldTone first;
        first.seconds = seconds;
        HeldTone next;
        next.hz = 440.0 * std::exp2(1.0 / 12.0);
        std::vector<float> sound = soundOf(first);
        const std::vector<float> after = soundOf(next);
        sound.insert(sound.end(), after.begin(), after.end());
        SteadyPitchFollower follower{SampleRate(48000.0)};
        double worst = 0.0;
        for (std::size_t at = 0; at < sound.size(); at += 256) {
            follower.push(std::span<const float>(sound).subspan(
                at, std::min<std::size_t>(256, sound.size() - at)));
            const auto reading = follower.reading();
            if (reading && std::fabs(offBy(*reading, 440.0)) < 50.0) {
                worst = std::max(worst, std::fabs(offBy(*reading, 440.0)));
            }
        }
        INFO(seconds);
        CHECK(worst < 0.1);
        REQUIRE(follower.reading());
        CHECK(std::fabs(offBy(*follower.reading(), next.hz)) < 0.1);
    }
}
