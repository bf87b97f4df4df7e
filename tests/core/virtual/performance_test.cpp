#include "core/virtual/performance.hpp"
#include "tests/core/virtual/playing.hpp"

#include <catch2/catch.hpp>

using namespace quillbench;
using namespace quillbench::test;

TEST_CASE("a performance is read from text", "[unit]") {
    const Instrument& made = exampleInstruments().front();
    const auto notes = parsePerformance("A3:8@0+2.5, A3:8b@0.03 ,C4@1.5e0", made);
    REQUIRE(notes.hasValue());
    REQUIRE(notes->size() == 3);
    CHECK((*notes)[0].at.count() == Approx(0.0).margin(1e-12));
    REQUIRE((*notes)[0].hold.has_value());
    CHECK((*notes)[0].hold->count() == Approx(2.5));
    CHECK((*notes)[1].choir == std::optional<std::size_t>(1));
    CHECK_FALSE((*notes)[1].hold.has_value());
    CHECK_FALSE((*notes)[2].choir.has_value());
    CHECK((*notes)[2].at.count() == Approx(1.5));
}

TEST_CASE("what is wrong in a performance is named", "[unit]") {
    const Instrument& made = exampleInstruments().front();
    const char* const text = GENERATE("",
                                      "A3",
                                      "A3:8",
                                      "A3:8@",
                                      "A3:8@x",
                                      "A3:8@-1",
                                      "A3:9@1",
                                      "H3:8@1",
                                      "A9:8@1",
                                      "A3:8@1+",
                                      "A3:8@1+-2",
                                      "A3:8@nan",
                                      "A3:8@1e9",
                                      "A3:8@1,,A3:8@2");
    CAPTURE(text);
    const auto notes = parsePerformance(text, made);
    REQUIRE_FALSE(notes.hasValue());
    CHECK(notes.error().code == ErrorCode::BadArgument);
    CHECK(notes.error().text.size() > 10);
}

TEST_CASE("detunings are read from text", "[unit]") {
    const Instrument& made = exampleInstruments().front();
    const auto detunings = parseDetunings("8b:A3=+4.2,4:C4=-3", made);
    REQUIRE(detunings.hasValue());
    REQUIRE(detunings->size() == 2);
    CHECK((*detunings)[0].string.choir == 1);
    CHECK((*detunings)[0].by.value() == Approx(4.2));
    CHECK((*detunings)[1].by.value() == Approx(-3.0));
    for (const char* const text : {"8b:A3", "8b=3", "9:A3=3", "8:A3=x", "8:A3=700", "A3:8=1"}) {
        CAPTURE(text);
        CHECK_FALSE(parseDetunings(text, made).hasValue());
    }
}

TEST_CASE("noise lies so far below the strings as was asked", "[unit]") {
    const Instrument& made = *findExample("single-8-8");
    const auto notes = parsePerformance("A3:8@1.5+0.5", made);
    REQUIRE(notes.hasValue());
    const double below = GENERATE(10.0, 35.0);
    const Performance still = perform(made, quiet(made), *notes, {}, Seconds(3.0));
    const Performance noisy =
        perform(made, quiet(made), *notes, {below, std::nullopt}, Seconds(3.0));
    // Half a second of nothing but noise, and the first second after the pluck.
    const double noise = rms(std::span(noisy.samples).subspan(24000, 40000));
    const double strings = rms(std::span(still.samples).subspan(72000, 48000));
    CHECK(still.strings.amplitude() == Approx(strings).epsilon(1e-3));
    CHECK(20.0 * std::log10(strings / noise) == Approx(below).margin(0.7));
}

TEST_CASE("plucks and pairs of a performance are told with their truth", "[unit]") {
    const Instrument& made = *findExample("single-8-8");
    VirtualSettings settings = quiet(made);
    const auto detunings = parseDetunings("8b:A3=+20", made);
    REQUIRE(detunings.hasValue());
    for (const Detuning& d : *detunings) {
        Hertz& pitch = settings.pitches[d.string.choir][d.string.course];
        pitch = transpose(pitch, d.by);
    }
    const auto notes = parsePerformance("A3:8@0.2+2,A3:8b@0.23,E4:8@1,E5:8@3", made);
    REQUIRE(notes.hasValue());
    const Performance performance = perform(made, settings, *notes, {}, Seconds(4.0));
    REQUIRE(performance.plucks.size() == 4);
    CHECK(performance.plucks[0].at.count() == Approx(0.2).margin(1e-4));
    CHECK(performance.plucks[1].at.count() == Approx(0.23).margin(1e-4));
    REQUIRE(performance.plucks[0].released.has_value());
    CHECK(performance.plucks[0].released->count() == Approx(2.2));
    // Unison of the two A's, a fifth from each to E; E5 comes after the first A was let go.
    std::vector<std::string_view> intervals;
    for (const PerformedPair& pair : performance.pairs) {
        intervals.push_back(pair.interval);
    }
    CHECK(intervals ==
          std::vector<std::string_view>{"unison", "fifth", "fifth", "twelfth", "octave"});
    CHECK(performance.pairs[0].pair.width().value() == Approx(20.0).margin(2.0));
    CHECK(performance.pairs[0].pair.beat().perSecond() > 0.0);
    CHECK(performance.pairs[2].pair.width().value() ==
          Approx(performance.pairs[1].pair.width().value() - 20.0).margin(3.0));
}
