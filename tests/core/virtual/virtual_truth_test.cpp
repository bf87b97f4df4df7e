#include "tests/core/virtual/playing.hpp"

#include <catch2/catch.hpp>

using namespace quillbench;
using namespace quillbench::test;
using Kind = VirtualCommand::Kind;

namespace {

constexpr double kRate = 48000.0;

/// Loudest partial's level in decibels.
double loudest(const PluckTruth& truth) {
    double most = -400.0;
    for (const auto& partial : truth.partials) {
        most = std::max(most, partial.level.value());
    }
    return most;
}

/// Decay time over the first 20 dB (at most 2 s) of partial 1's smoothed level.
double decay60(const std::vector<float>& sound, double hz) {
    const auto partial = demodulate(sound, kRate, hz, 0.1, 2.1, std::max(0.04, 5.0 / hz));
    std::vector<double> seconds;
    std::vector<double> level;
    for (std::size_t i = 0; i < partial.z.size(); ++i) {
        level.push_back(20.0 * std::log10(std::abs(partial.z[i])));
        seconds.push_back(partial.seconds[i]);
        if (level.back() < level.front() - 20.0) {
            break;
        }
    }
    return -60.0 / slopeOf(seconds, level);
}

} // namespace

TEST_CASE("a pluck's partials are where its truth says", "[dsp]") {
    // Independent of the generator: the sound itself, each partial demodulated through a Blackman window.
    const Instrument& made = *findExample("single-8-8");
    const std::size_t course = GENERATE(as<std::size_t>{}, 0, 12, 24, 36, 48);
    const std::uint64_t seed = GENERATE(as<std::uint64_t>{}, 1, 2);
    VirtualInstrument instrument(made, quiet(made, seed));
    instrument.apply(onString(Kind::PluckString, 0, {0, course}));
    const auto sound = rendered(instrument, static_cast<std::size_t>(2.8 * kRate));
    const auto records = plucks(instrument);
    REQUIRE(records.size() == 1);
    const PluckTruth truth = instrument.truth(records[0]);
    const double at = static_cast<double>(records[0].at.value()) / kRate;
    const double f1 = truth.rest.value();
    std::size_t compared = 0;
    for (const auto& partial : truth.partials) {
        // Softer partials are disturbed by what the window lets through of their neighbours.
        if (partial.level.value() < loudest(truth) - 25.0 || partial.used.count() < 0.8) {
            continue;
        }
        const double hz = partial.mean.value();
        const auto heard = demodulate(
            sound, kRate, hz, at + 0.1, at + 0.1 + partial.used.count(), std::max(0.03, 6.0 / f1));
        const double cents = 1200.0 * std::log2(meanHz(heard, hz) / hz);
        CAPTURE(course, seed, partial.number, hz);
        CHECK(std::abs(cents) < 0.05);
        ++compared;
    }
    CHECK(compared >= 3);
    // The comb's pitch lies among its partials; the string starts above it and rests near it.
    CHECK(std::abs(interval(truth.rest, truth.sustain).value()) < 1.5);
    CHECK(truth.glide.value() > 0.05);
    CHECK(truth.glide.value() <=
          6.5); // 5 cents for an ordinary pluck, more for one 1.1 times as strong
    CHECK(truth.start.value() > -0.5);
}

TEST_CASE("a hard pluck starts sharper and sinks to the same rest", "[dsp]") {
    const Instrument& made = *findExample("single-8-8");
    VirtualInstrument instrument(made, quiet(made));
    const StringId string{0, 30};
    instrument.apply(onString(Kind::PluckString, 0, string, 0.5));
    instrument.apply(onString(Kind::DampString, 96000, string));
    instrument.apply(onString(Kind::PluckString, 144000, string, 1.0));
    rendered(instrument, 240000);
    const auto records = plucks(instrument);
    REQUIRE(records.size() == 2);
    const PluckTruth soft = instrument.truth(records[0]);
    const PluckTruth hard = instrument.truth(records[1]);
    CHECK(soft.rest.value() == Approx(hard.rest.value()).epsilon(1e-12));
    // The sharpness grows with the square of the displacement [Legge1984]; plucks scatter by 2 %.
    CHECK(hard.glide.value() / soft.glide.value() == Approx(4.0).epsilon(0.2));
    CHECK(hard.sustain > soft.sustain);
}

TEST_CASE("a hand plucks a string that no key reaches where the keyboard stands", "[dsp]") {
    const Instrument& made = *findExample("single-8-8");
    const StringId top{0, made.choirs[0].strings.size() - 1};
    const VirtualSettings settings = quiet(made);
    REQUIRE_FALSE(keyAt(made, top.course, settings.position));
    VirtualInstrument instrument(made, settings);
    instrument.apply(onString(Kind::PluckString, 0, top));
    (void)rendered(instrument, 12000);
    const auto records = plucks(instrument);
    REQUIRE(records.size() == 1);
    CHECK(records.front().string == top);
}

TEST_CASE("two strings beat as the truth says", "[dsp]") {
    const Instrument& made = *findExample("single-8-8");
    VirtualSettings settings = quiet(made);
    const StringId lower{0, 20};
    const StringId upper{1, 20};
    const double cents = GENERATE(-14.0, 10.0, 25.0);
    settings.pitches[1][20] = transpose(settings.pitches[1][20], Cents(cents));
    VirtualInstrument both(made, settings);
    both.apply(onString(Kind::PluckString, 0, lower));
    both.apply(onString(Kind::PluckString, 0, upper));
    const auto sound = rendered(both, static_cast<std::size_t>(2.8 * kRate));
    const auto records = plucks(both);
    REQUIRE(records.size() == 2);
    const auto pair = both.coincidentPair(records[0], 1, records[1], 1);
    REQUIRE(pair.has_value());
    CHECK((pair->beat().perSecond() > 0.0) == (cents > 0.0));

    // Each string heard alone.
    std::vector<double> alone;
    for (const StringId string : {lower, upper}) {
        VirtualInstrument one(made, settings);
        one.apply(onString(Kind::PluckString, 0, string));
        const auto solo = rendered(one, static_cast<std::size_t>(2.8 * kRate));
        const double f = one.restPitch(string).value();
        alone.push_back(meanHz(demodulate(solo, kRate, f, 0.11, 2.51, 0.05), f));
    }
    CHECK(pair->beat().perSecond() == Approx(alone[1] - alone[0]).margin(0.005));

    // Both together: the dips of their envelope, counted.
    const double middle = 0.5 * (alone[0] + alone[1]);
    const auto envelope = demodulate(sound, kRate, middle, 0.11, 2.51, 0.05);
    int dips = 0;
    for (std::size_t i = 2; i + 2 < envelope.z.size(); ++i) {
        const double here = std::abs(envelope.z[i]);
        if (here < std::abs(envelope.z[i - 1]) && here <= std::abs(envelope.z[i + 1]) &&
            here < std::abs(envelope.z[i - 2]) && here <= std::abs(envelope.z[i + 2])) {
            ++dips;
        }
    }
    CHECK(dips == Approx(std::abs(pair->beat().perSecond()) * 2.4).margin(1.01));
}

TEST_CASE("strings die away as harpsichord strings do", "[dsp]") {
    // [Valimaki2004]: about 5–10 s to 60 dB for the fundamental in the bass, 2–5 s in the middle, under
    // 2 s in the treble (values from memory). Medians of seven strings; a half more for two-stage decay.
    const Instrument& made = *findExample("single-8-8");

    struct Range {
        std::size_t course;
        double low;
        double high;
    };

    const Range range = GENERATE(Range{3, 4.0, 12.0}, Range{24, 2.0, 6.5}, Range{48, 0.7, 3.0});
    std::vector<double> times;
    for (std::size_t i = 0; i < 7; ++i) {
        VirtualInstrument instrument(made, quiet(made, 1 + i));
        const StringId string{0, range.course + i % 3};
        instrument.apply(onString(Kind::PluckString, 0, string));
        const auto sound = rendered(instrument, static_cast<std::size_t>(2.3 * kRate));
        const double t = decay60(sound, instrument.restPitch(string).value());
        times.push_back(t > 0.0 ? t : 1e3);
    }
    std::sort(times.begin(), times.end());
    CAPTURE(times);
    CHECK(times[3] > range.low);
    CHECK(times[3] < range.high);
}

TEST_CASE("in the bass the second to eighth partial outweigh the first", "[dsp]") {
    // As in real instruments (common practice, no source; the recordings named in DEVELOPERS.md).
    const Instrument& made = *findExample("single-8-8");
    VirtualInstrument instrument(made, quiet(made));
    instrument.apply(onString(Kind::PluckString, 0, {0, 4}));
    rendered(instrument, 4800);
    const PluckTruth truth = instrument.truth(plucks(instrument).at(0));
    double middle = -400.0;
    for (const auto& partial : truth.partials) {
        if (partial.number >= 2 && partial.number <= 8) {
            middle = std::max(middle, partial.level.value());
        }
    }
    REQUIRE(truth.partials.front().number == 1);
    CHECK(truth.partials.front().level.value() < middle - 6.0);
}
