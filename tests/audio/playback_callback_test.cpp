#include "audio/playback_callback.hpp"
#include "core/units/decibel.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <vector>

using namespace quillbench;
using namespace quillbench::literals;

namespace {

constexpr float kUnwritten = 77.0F;

std::vector<float> play(PlaybackCallback& playback, std::size_t frames, int channels = 1) {
    std::vector<float> output(frames * static_cast<std::size_t>(channels), kUnwritten);
    CallbackData data;
    data.output = output.data();
    data.frames = frames;
    data.channels = channels;
    playback.process(data);
    return output;
}

double rms(const std::vector<float>& samples, std::size_t from, std::size_t to) {
    double sum = 0.0;
    for (std::size_t i = from; i < to; ++i) {
        sum += static_cast<double>(samples[i]) * static_cast<double>(samples[i]);
    }
    return std::sqrt(sum / static_cast<double>(to - from));
}

/// Amplitude of one frequency over the whole of it.
double amplitudeAt(const std::vector<float>& samples, std::size_t from, double hz) {
    double re = 0.0;
    double im = 0.0;
    for (std::size_t i = from; i < samples.size(); ++i) {
        const double angle = 2.0 * std::numbers::pi * hz * static_cast<double>(i) / 48000.0;
        re += static_cast<double>(samples[i]) * std::cos(angle);
        im += static_cast<double>(samples[i]) * std::sin(angle);
    }
    return 2.0 * std::hypot(re, im) / static_cast<double>(samples.size() - from);
}

ToneRequest tone(std::initializer_list<ToneVoice> voices) {
    ToneRequest request;
    for (const ToneVoice& voice : voices) {
        REQUIRE(request.voices.tryPush(voice));
    }
    return request;
}

} // namespace

TEST_CASE("playback always fills its buffer", "[unit]") {
    PlaybackCallback playback(SampleRate(48000));
    const std::size_t frames = GENERATE(0U, 1U, 255U, 256U, 257U, 5000U);
    const int channels = GENERATE(1, 2, 3);
    const std::vector<float> written(100, 0.25F);
    CHECK(playback.write(written) == 100);
    const auto output = play(playback, frames, channels);
    for (std::size_t i = 0; i < output.size(); ++i) {
        const bool fromRing = i / static_cast<std::size_t>(channels) < 100;
        REQUIRE(output[i] == (fromRing ? 0.25F : 0.0F));
    }
}

TEST_CASE("no more sound waits than the device asks for at once and a little", "[unit]") {
    PlaybackCallback playback(SampleRate(48000));
    CHECK(playback.room() == 960); // 20 ms, before the device asked
    playback.beforeRun();
    play(playback, 256);
    CHECK(playback.waiting() == 256 + 384); // 8 ms more
    play(playback, 128);
    CHECK(playback.waiting() == 256 + 384);
    play(playback, 3000); // more than all that could wait before
    CHECK(playback.waiting() == 3000 + 384);
    CHECK(playback.write(std::vector<float>(5000, 0.5F)) == 3000 + 384);
    const auto output = play(playback, 3000);
    CHECK(std::count(output.begin(), output.end(), 0.5F) == 3000);
    CHECK(playback.underruns() == 0);
}

TEST_CASE("a renderer that comes too late is given more time, up to 50 ms", "[unit]") {
    PlaybackCallback playback(SampleRate(48000));
    playback.beforeRun();
    const std::vector<float> sound(256, 0.5F);
    for (std::size_t late = 0; late < 20; ++late) {
        playback.write(sound);
        play(playback, 256); // in time
        play(playback, 256); // nothing came
        CHECK(playback.waiting() == 256 + std::min<std::size_t>(2400, 384 + 192 * (late + 1)));
    }
    CHECK(playback.underruns() == 20);
    play(playback, 256); // silence after silence: nobody writes
    CHECK(playback.underruns() == 20);
}

TEST_CASE("written sound is played once and in order", "[unit]") {
    PlaybackCallback playback(SampleRate(48000));
    playback.beforeRun();
    play(playback, 2016);
    std::vector<float> ramp(3000);
    for (std::size_t i = 0; i < ramp.size(); ++i) {
        ramp[i] = static_cast<float>(i) / 4096.0F;
    }
    CHECK(playback.room() == 2400);
    CHECK(playback.write(ramp) == 2400);
    CHECK(playback.room() == 0);
    const auto first = play(playback, 1000);
    CHECK(std::equal(first.begin(), first.end(), ramp.begin()));
    CHECK(playback.underruns() == 0);
    const auto rest = play(playback, 2000); // 1400 are there
    CHECK(std::equal(rest.begin(), rest.begin() + 1400, ramp.begin() + 1000));
    CHECK(playback.underruns() == 1);
    play(playback, 2000); // nothing is written any more: no underrun, nobody writes
    CHECK(playback.underruns() == 1);
}

TEST_CASE("loud sound is limited to full scale", "[unit]") {
    PlaybackCallback playback(SampleRate(48000));
    CHECK(playback.write(std::vector<float>{2.0F, -3.0F}) == 2);
    CHECK(play(playback, 2) == std::vector<float>{1.0F, -1.0F});
}

TEST_CASE("a reference tone has its pitch, its level and its partials", "[dsp]") {
    PlaybackCallback playback(SampleRate(48000));
    playback.setTone(tone({{Hertz(415.0), -20.0_dB, 3}}));
    const auto output = play(playback, 48000 + 4800);
    // A whole second after the fade: each partial falls on a whole number of periods.
    CHECK(amplitudeAt(output, 4800, 415.0) == Approx(0.1).epsilon(1e-3));
    CHECK(amplitudeAt(output, 4800, 830.0) == Approx(0.05).epsilon(1e-3));
    CHECK(amplitudeAt(output, 4800, 1245.0) == Approx(0.1 / 3.0).epsilon(1e-3));
    CHECK(amplitudeAt(output, 4800, 1660.0) < 1e-6);
    CHECK(amplitudeAt(output, 4800, 416.0) < 1e-6);
}

TEST_CASE("two voices beat at their difference", "[dsp]") {
    PlaybackCallback playback(SampleRate(48000));
    playback.setTone(tone({{Hertz(440.0), -20.0_dB, 1}, {Hertz(442.0), -20.0_dB, 1}}));
    const auto output = play(playback, 96000);
    // They start together: loud at 0.5 s and 1 s, still half-way, at 0.25 s and 0.75 s.
    CHECK(rms(output, 23000, 25000) == Approx(0.2 / std::numbers::sqrt2).epsilon(0.02));
    CHECK(rms(output, 11500, 12500) < 0.02);
    CHECK(rms(output, 35500, 36500) < 0.02);
    CHECK(rms(output, 47000, 49000) == Approx(0.2 / std::numbers::sqrt2).epsilon(0.02));
}

TEST_CASE("tones come and go without a click", "[dsp]") {
    PlaybackCallback playback(SampleRate(48000));
    playback.setTone(tone({{Hertz(100.0), 0.0_dB, 1}}));
    std::vector<float> output = play(playback, 5000);
    playback.setTone({});
    const auto end = play(playback, 5000);
    output.insert(output.end(), end.begin(), end.end());
    // The steepest a full 100 Hz tone gets is 2π·100/48000 a sample; the fade adds 1/480.
    double steepest = 0.0;
    double before = 0.0;
    for (const float sample : output) {
        steepest = std::max(steepest, std::fabs(static_cast<double>(sample) - before));
        before = static_cast<double>(sample);
    }
    CHECK(steepest < 2.0 * std::numbers::pi * 100.0 / 48000.0 + 1.0 / 480.0 + 1e-6);
    CHECK(rms(output, 4000, 5000) > 0.5);
    CHECK(rms(output, 9000, 10000) == 0.0);
}

TEST_CASE("what cannot sound is left out", "[dsp]") {
    PlaybackCallback playback(SampleRate(48000));
    const double hz = GENERATE(0.0, -5.0, 24000.0, 1e9, std::numeric_limits<double>::quiet_NaN());
    playback.setTone(tone({{Hertz(hz), -20.0_dB, 1}}));
    const auto output = play(playback, 1000);
    CHECK(rms(output, 0, output.size()) == 0.0);
}
