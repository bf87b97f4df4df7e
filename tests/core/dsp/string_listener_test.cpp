#include "core/dsp/single_string.hpp"
#include "core/dsp/string_listener.hpp"
#include "tests/core/dsp/plucked_string.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>

using namespace quillbench;

namespace {

constexpr SampleRate kListenedRate{48000.0};

FrameIndex pluckOf(const test::PluckedString& string) {
    return FrameIndex(static_cast<std::int64_t>(string.before * string.rateHz));
}

ListeningFor at(double hz) {
    ListeningFor what;
    what.target = Hertz(hz);
    return what;
}

double centsBetween(double a, double b) {
    return 1200.0 * std::log2(a / b);
}

StringReading readingOf(const std::vector<float>& samples,
                        const ListeningFor& what,
                        FrameIndex pluck,
                        double window) {
    const std::vector<double> windows{window};
    return readingsAfter(pluck, what, samples, kListenedRate, windows).front();
}

} // namespace

TEST_CASE("a string without glide is read within 0.1 cent over the compass", "[dsp]") {
    test::PluckedString string;
    string.pitchHz = GENERATE(27.0, 55.0, 131.0, 415.0, 1000.0, 2500.0);
    string.inharmonicity = string.pitchHz < 100.0 ? 2e-5 : 7e-5 * string.pitchHz / 400.0;
    string.decayRate = 0.6 * std::sqrt(string.pitchHz / 60.0);
    string.noise = 3e-4; // 30 to 40 dB below the string
    const double off = GENERATE(-40.0, 15.0);
    const auto samples = string.render();
    for (const double window : {0.5, 1.0, 2.0}) {
        const auto reading = readingOf(
            samples, at(string.pitchHz * std::exp2(off / 1200.0)), pluckOf(string), window);
        INFO("pitch " << string.pitchHz << " window " << window);
        REQUIRE(reading.standing == Standing::Ok);
        // The prior expects some glide: what a shorter window foretells may be off by a part of it.
        CHECK(std::abs(centsBetween(reading.pitch.value(), string.pitchHz)) <
              (window < 0.9 ? 0.25 : 0.1));
        CHECK(reading.inharmonicity == Approx(string.inharmonicity).epsilon(0.1).margin(2e-6));
        CHECK(reading.deviationUncertainty.value() > 0.03);
        CHECK(reading.deviationUncertainty.value() < 0.6);
    }
}

TEST_CASE("the sustain pitch of a string that sinks is foretold", "[dsp]") {
    test::PluckedString string;
    string.pitchHz = GENERATE(70.0, 220.0, 620.0);
    string.glideCents = GENERATE(1.0, 3.0);
    string.decayRate = 0.8 * std::sqrt(string.pitchHz / 60.0);
    const auto samples = string.render();
    for (const double window : {0.5, 1.0, 2.0}) {
        const auto reading = readingOf(samples, at(string.pitchHz), pluckOf(string), window);
        INFO("pitch " << string.pitchHz << " glide " << string.glideCents << " window " << window);
        const double error = centsBetween(reading.pitch.value(), string.sustainHz());
        CHECK(std::abs(error) < (window < 0.9 ? 0.25 : 0.1));
        CHECK(std::abs(error) < 3.0 * reading.deviationUncertainty.value());
        const double sharper = string.glideCents - string.sustainAboveRest();
        CHECK(reading.startSharpness.value() == Approx(sharper).epsilon(0.4));
    }
}

TEST_CASE("for any partition into blocks the readings are the same to a bit", "[dsp]") {
    test::PluckedString string;
    string.pitchHz = 196.0;
    string.glideCents = 1.5;
    string.noise = 1e-3;
    const auto samples = string.render();
    const ListeningFor what = at(195.0);
    const auto reference = readingOf(samples, what, pluckOf(string), 0.7);
    REQUIRE(reference.standing != Standing::Nothing);
    StringListener listener(kListenedRate);
    for (const std::size_t size :
         {std::size_t{1}, std::size_t{64}, std::size_t{997}, std::size_t{40000}}) {
        listener.begin(what, pluckOf(string));
        const auto end = static_cast<std::size_t>((string.before + 0.7) * kListenedRate.hz());
        // The readings in between, as the live analysis takes them, leave no trace.
        for (std::size_t first = 0; first < end; first += size) {
            const std::size_t count = std::min(size, end - first);
            listener.push({FrameIndex(static_cast<std::int64_t>(first)),
                           std::span<const float>(samples).subspan(first, count),
                           false});
            if (size > 500) {
                static_cast<void>(listener.reading());
            }
        }
        const auto reading = listener.reading();
        INFO("blocks of " << size);
        CHECK(reading.pitch == reference.pitch);
        CHECK(reading.pitchUncertainty == reference.pitchUncertainty);
        CHECK(reading.inharmonicity == reference.inharmonicity);
        CHECK(reading.partials.size() == reference.partials.size());
    }
}

TEST_CASE("sound after the window and a gap change nothing", "[dsp]") {
    test::PluckedString string;
    const auto samples = string.render();
    const ListeningFor what = at(220.0);
    StringListener listener(kListenedRate);
    listener.begin(what, pluckOf(string));
    const auto half = static_cast<std::size_t>(kListenedRate.hz());
    listener.push({FrameIndex(0), std::span<const float>(samples).first(half), false});
    const auto before = listener.reading();
    listener.push({FrameIndex(60000), std::span<const float>(samples).subspan(60000, 9000), false});
    CHECK(listener.finished());
    CHECK(listener.reading().pitch == before.pitch);
}

TEST_CASE("the first reading comes early", "[dsp]") {
    test::PluckedString string;
    string.pitchHz = GENERATE(40.0, 80.0, 200.0, 800.0);
    const double latest = string.pitchHz >= 200.0 ? 0.15 : 0.3;
    CHECK(StringListener::earliestReading(Hertz(string.pitchHz)).count() <= latest);
    const auto reading =
        readingOf(string.render(), at(string.pitchHz * 1.005), pluckOf(string), latest);
    REQUIRE(reading.standing != Standing::Nothing);
    CHECK(std::abs(centsBetween(reading.pitch.value(), string.pitchHz)) < 1.5);
}

TEST_CASE("silence, a constant, noise and another note give nothing", "[dsp]") {
    const FrameIndex pluck(24000);
    std::vector<float> sound(140000, 0.0F);
    CHECK(readingOf(sound, at(220.0), pluck, 1.0).standing == Standing::Nothing);
    std::fill(sound.begin(), sound.end(), 0.25F);
    CHECK(readingOf(sound, at(220.0), pluck, 1.0).standing == Standing::Nothing);
    Random random(5);
    for (float& sample : sound) {
        sample = static_cast<float>(0.05 * random.normal());
    }
    CHECK(readingOf(sound, at(220.0), pluck, 1.0).standing == Standing::Nothing);
    test::PluckedString other;
    other.pitchHz = 220.0 * std::exp2(3.3 / 12.0);
    const auto wrong = readingOf(other.render(), at(220.0), pluckOf(other), 1.0);
    CHECK(wrong.standing == Standing::Nothing);
}

TEST_CASE("clipping, a lost fundamental and a neighbour that rings cost little", "[dsp]") {
    test::PluckedString string;
    string.pitchHz = 247.0;
    string.level = 0.5;
    auto samples = string.render();
    const auto error = [&](const std::vector<float>& sound) {
        return std::abs(centsBetween(
            readingOf(sound, at(248.0), pluckOf(string), 1.0).pitch.value(), string.pitchHz));
    };
    auto clipped = samples;
    for (float& sample : clipped) {
        sample = std::clamp(sample, -0.25F, 0.25F);
    }
    CHECK(error(clipped) < 0.2);
    test::PluckedString neighbour = string;
    neighbour.pitchHz = 262.0;
    neighbour.level = 0.1;
    neighbour.before = 0.0;
    neighbour.after = string.before + string.after;
    neighbour.seed = 2;
    auto both = samples;
    const auto ringing = neighbour.render();
    for (std::size_t i = 0; i < both.size(); ++i) {
        both[i] += ringing[i];
    }
    CHECK(error(both) < 0.2);
    auto headless = samples;
    for (std::size_t i = 0; i < headless.size(); ++i) {
        const double t = static_cast<double>(i) / kListenedRate.hz() - string.before;
        if (t > 0.0) {
            headless[i] -=
                static_cast<float>(string.amplitude(1) * std::exp(-string.decay(1) * t) *
                                   std::sin(2.0 * std::numbers::pi * string.partial(1) * t));
        }
    }
    CHECK(error(headless) < 0.1);
}

TEST_CASE("an octave string of the same key is kept out", "[dsp]") {
    test::PluckedString string;
    string.pitchHz = 175.0;
    test::PluckedString octave = string;
    octave.pitchHz = 2.0 * 175.0 * std::exp2(4.0 / 1200.0);
    octave.seed = 3;
    auto samples = string.render();
    const auto other = octave.render();
    for (std::size_t i = 0; i < samples.size(); ++i) {
        samples[i] += other[i];
    }
    ListeningFor what = at(175.5);
    what.alsoSounding = 2.0;
    const auto reading = readingOf(samples, what, pluckOf(string), 1.0);
    CHECK(std::abs(centsBetween(reading.pitch.value(), 175.0)) < 0.15);
    for (const PartialReading& partial : reading.partials) {
        CHECK(partial.number % 2 == 1);
    }
}
