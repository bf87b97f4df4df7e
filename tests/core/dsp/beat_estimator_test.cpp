#include "tests/core/dsp/two_strings.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace quillbench;
using quillbench::test::PlainString;

namespace {

struct Interval {
    const char* name;
    int ofLower;
    int ofUpper;
};

constexpr Interval kUnison{"unison", 1, 1};
constexpr Interval kOctave{"octave", 2, 1};
constexpr Interval kFifth{"fifth", 3, 2};
constexpr Interval kThird{"major third", 5, 4};

/// The upper string whose partial beats at `beatHz` with the lower one's.
PlainString upperOf(const PlainString& lower, const Interval& interval, double beatHz) {
    PlainString upper;
    upper.seed = 2;
    upper.inharmonicity = 1.3 * lower.inharmonicity;
    const double met = lower.partial(interval.ofLower) + beatHz;
    upper.f0Hz = met / interval.ofUpper /
                 std::sqrt(1.0 + upper.inharmonicity * interval.ofUpper * interval.ofUpper);
    return upper;
}

PairQuestion
ask(const PlainString& lower, const Interval& interval, std::optional<KnownString> known) {
    PairQuestion question;
    question.lowerPartial = interval.ofLower;
    question.upperPartial = interval.ofUpper;
    question.lowerTarget = Hertz(lower.partial(1));
    question.upperTarget = Hertz(lower.partial(1) * interval.ofLower / interval.ofUpper);
    question.lower = std::move(known);
    return question;
}

PlainString lowerAt(double hz) {
    return PlainString{hz, 3e-5, 0.1, 6.0, 1};
}

} // namespace

TEST_CASE("the beat of two strings and its direction", "[beats]") {
    struct Case {
        Interval interval;
        double lowerHz;
        double beatHz;
    };

    const Case cases[] = {{kUnison, 220.0, 0.6},
                          {kUnison, 311.0, -1.4},
                          {kUnison, 660.0, 0.3},
                          {kOctave, 131.0, -0.5},
                          {kOctave, 277.0, 2.2},
                          {kFifth, 196.0, -0.74},
                          {kFifth, 262.0, 3.1},
                          {kThird, 175.0, 6.9},
                          {kThird, 220.0, -4.0}};
    for (const Case& c : cases) {
        INFO(c.interval.name << " on " << c.lowerHz << " Hz, beat " << c.beatHz);
        const PlainString lower = lowerAt(c.lowerHz);
        const PlainString upper = upperOf(lower, c.interval, c.beatHz);
        const auto known = test::reference(lower, c.interval.ofLower);
        REQUIRE(known.has_value());
        const auto reading =
            test::listen(test::together(lower, upper), ask(lower, c.interval, known));
        REQUIRE(reading.found);
        CHECK(reading.beat.perSecond() == Approx(c.beatHz).margin(0.03));
        CHECK(std::abs(reading.beat.perSecond() - c.beatHz) < 3.0 * reading.beatUncertainty + 0.01);
        CHECK(reading.direction == (c.beatHz > 0.0 ? BeatDirection::Wide : BeatDirection::Narrow));
        CHECK(reading.coincident[0].lowerPartial == c.interval.ofLower);
        CHECK(reading.coincident[0].upperPartial == c.interval.ofUpper);
        CHECK(reading.coincident[0].frequency.value() ==
              Approx(lower.partial(c.interval.ofLower)).epsilon(1e-4));
        const double cents = 1200.0 * std::log2(1.0 + c.beatHz / lower.partial(c.interval.ofLower));
        CHECK(reading.width.value() == Approx(cents).margin(0.25));
    }
}

TEST_CASE("polarisations of the lower string that were heard alone are not taken for the upper one",
          "[beats]") {
    for (const double beatHz : {0.35, -0.5, 0.8}) {
        for (const double lowerHz : {440.0, 620.0}) {
            INFO(lowerHz << " Hz, beat " << beatHz);
            PlainString lower = lowerAt(lowerHz);
            lower.secondCents = 1.6;
            PlainString upper = upperOf(lower, kUnison, beatHz);
            upper.secondCents = 0.0;
            const auto reading = test::listen(test::together(lower, upper),
                                              ask(lower, kUnison, test::reference(lower, 1)));
            REQUIRE(reading.found);
            // The first of two polarisations, in closed form.
            for (std::size_t k = 1; k < 4; ++k) {
                const MeetingPartials& met = reading.coincident[k];
                const double n = met.lowerPartial;
                CAPTURE(n, met.beat.perSecond());
                CHECK(met.beat.perSecond() ==
                      Approx(upper.partial(met.upperPartial) - lower.partial(met.lowerPartial))
                          .margin(0.1));
            }
        }
    }
}

TEST_CASE("a still pair is pure", "[beats]") {
    for (const Interval& interval : {kUnison, kOctave, kFifth}) {
        INFO(interval.name);
        const PlainString lower = lowerAt(147.0);
        const auto sound = test::together(lower, upperOf(lower, interval, 0.0));
        const auto reading =
            test::listen(sound, ask(lower, interval, test::reference(lower, interval.ofLower)));
        REQUIRE(reading.found);
        CHECK(std::abs(reading.beat.perSecond()) < 0.03);
        CAPTURE(reading.beat.perSecond(), reading.beatUncertainty);
        CHECK(reading.direction == BeatDirection::Pure);
    }
}

TEST_CASE("a reference above tells the direction as one below does", "[beats]") {
    struct Case {
        Interval interval;
        double lowerHz;
        double beatHz;
    };

    for (const Case& c :
         {Case{kOctave, 131.0, -0.5}, {kOctave, 220.0, 0.8}, {kFifth, 196.0, -0.74}}) {
        INFO(c.interval.name << " on " << c.lowerHz << " Hz, beat " << c.beatHz);
        const PlainString lower = lowerAt(c.lowerHz);
        const PlainString upper = upperOf(lower, c.interval, c.beatHz);
        PairQuestion question = ask(lower, c.interval, std::nullopt);
        question.upper = test::reference(upper, c.interval.ofUpper);
        REQUIRE(question.upper.has_value());
        const auto reading = test::listen(test::together(lower, upper), question);
        REQUIRE(reading.found);
        CHECK(reading.beat.perSecond() == Approx(c.beatHz).margin(0.03));
        CHECK(reading.direction == (c.beatHz > 0.0 ? BeatDirection::Wide : BeatDirection::Narrow));
        CHECK(reading.width.value() * c.beatHz > 0.0);
        CHECK(reading.coincident[0].lowerPartial == c.interval.ofLower);
        CHECK(reading.coincident[0].upperPartial == c.interval.ofUpper);
        CHECK(reading.coincident[0].beat.perSecond() == Approx(c.beatHz).margin(0.03));
    }
}

TEST_CASE("without a reference a unison has a rate but no direction", "[beats]") {
    const PlainString lower = lowerAt(220.0);
    const auto sound = test::together(lower, upperOf(lower, kUnison, 0.9));
    const auto reading = test::listen(sound, ask(lower, kUnison, std::nullopt));
    REQUIRE(reading.found);
    CHECK(std::abs(reading.beat.perSecond()) == Approx(0.9).margin(0.03));
    CHECK(reading.direction == BeatDirection::Unknown);
}

TEST_CASE("a fifth has a direction without any reference", "[beats]") {
    const PlainString lower = lowerAt(196.0);
    const auto sound = test::together(lower, upperOf(lower, kFifth, -1.2));
    const auto reading = test::listen(sound, ask(lower, kFifth, std::nullopt));
    REQUIRE(reading.found);
    CHECK(reading.beat.perSecond() == Approx(-1.2).margin(0.03));
    CHECK(reading.direction == BeatDirection::Narrow);
}

TEST_CASE("a kept reading gives a unison its direction", "[beats]") {
    const PlainString lower = lowerAt(220.0);
    const auto sound = test::together(lower, upperOf(lower, kUnison, 1.5));
    const auto reading =
        test::listen(sound, ask(lower, kUnison, keptString(Hertz(lower.partial(1)), Cents(0.5))));
    REQUIRE(reading.found);
    CHECK(reading.beat.perSecond() == Approx(1.5).margin(0.05));
    CHECK(reading.direction == BeatDirection::Wide);
}

TEST_CASE("nothing beats in silence, in noise and where one string is missing", "[beats]") {
    const PlainString lower = lowerAt(196.0);
    for (const Interval& interval : {kOctave, kFifth, kThird}) {
        INFO(interval.name);
        const auto known = test::reference(lower, interval.ofLower);
        const PairQuestion question = ask(lower, interval, known);
        CHECK_FALSE(test::listen(std::vector<double>(100000, 0.0), question).found);
        CHECK_FALSE(test::listen(test::noise(2.3, 0.01, 3), question).found);
        auto alone = test::noise(2.3, 1e-5, 79);
        lower.addTo(alone, test::kPluckS);
        CHECK_FALSE(test::listen(alone, question).found);
    }
    CHECK_FALSE(test::listen(test::noise(2.3, 0.01, 4), ask(lower, kUnison, std::nullopt)).found);
}

TEST_CASE("one string alone has no beat with itself", "[beats]") {
    const PlainString lower = lowerAt(196.0);
    auto alone = test::noise(2.3, 1e-5, 79);
    lower.addTo(alone, test::kPluckS);
    const auto reading = test::listen(alone, ask(lower, kUnison, test::reference(lower, 1)));
    const bool silent = !reading.found || reading.weak;
    const bool still =
        reading.direction == BeatDirection::Pure && std::abs(reading.beat.perSecond()) < 0.05;
    CHECK((silent || still));
}

TEST_CASE("what counts as still grows with the frequency", "[beats]") {
    CHECK(stillLimit(Hertz(150.0)).perSecond() == Approx(0.05));
    CHECK(stillLimit(Hertz(300.0)).perSecond() == Approx(0.05));
    CHECK(stillLimit(Hertz(900.0)).perSecond() == Approx(0.15));
}

TEST_CASE("too short a sound gives nothing", "[beats]") {
    const PlainString lower = lowerAt(220.0);
    const auto sound = test::together(lower, upperOf(lower, kUnison, 0.9));
    const auto reading = hearPair(sound,
                                  SampleRate(test::kRateHz),
                                  Seconds(test::kPluckS),
                                  Seconds(test::kPluckS),
                                  Seconds(test::kPluckS + 0.2),
                                  ask(lower, kUnison, std::nullopt));
    CHECK_FALSE(reading.found);
}
