#include "core/instrument/examples.hpp"
#include "core/practise/practice_bearings.hpp"
#include "core/temperament/catalogue.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

using namespace quillbench;

namespace {

/// Turns the pin of a step by numbers until the two do what is wanted, and `by` cents of the interval more.
Hertz setTo(const PracticeBearings& bearings, Cents by) {
    PracticePair pair = bearings.pair(bearings.at());
    const StringId pin = pinOf(pair);
    const bool upper = pin == pair.upper;
    Hertz& pitch = pair.settings.pitches[pin.choir][pin.course];
    const Hertz lower = pair.settings.pitches[pair.lower.choir][pair.lower.course];
    const double perCent = hertzPerCent(lower * intervalOf(pair.interval).pair.ofLower);
    const double wanted = bearings.steps()[bearings.at()].beat.perSecond() + by.value() * perCent;
    for (int i = 0; i < 6; ++i) {
        const auto now = trueBeat(pair);
        REQUIRE(now);
        const double cents = (wanted - now->perSecond()) / perCent;
        pitch = transpose(pitch, Cents(upper ? cents : -cents));
    }
    return pitch;
}

PracticeBearings bearingsOf(const char* temperament, std::uint64_t seed) {
    const TunedScale scale{*findTemperament(temperament), ReferencePitch{}};
    return {*findExample("double-8-8-4"), scale, computedPlan(scale), seed, SampleRate(48000.0)};
}

void setAll(PracticeBearings& bearings, Cents by) {
    while (!bearings.done()) {
        bearings.leave(bearings.sets(bearings.at()) ? setTo(bearings, by) : Hertz(1.0));
    }
}

} // namespace

TEST_CASE("a whole plan set as it is asked for ends in its temperament", "[practise]") {
    PracticeBearings bearings = bearingsOf("werckmeister-3", 3);
    const std::size_t steps = bearings.steps().size();
    CHECK(steps > 15);
    // Something is to be done at first.
    CHECK(std::abs((bearings.exercise().beat - bearings.exercise().wanted).perSecond()) > 0.3);
    setAll(bearings, Cents(0.0));
    const auto left = bearings.left();
    REQUIRE(left.size() == steps);
    for (const BearingLeft& one : left) {
        INFO(inWords(bearings.steps()[one.step]));
        if (bearings.sets(one.step)) {
            CHECK(std::abs(one.left.perSecond()) < 0.02);
        }
        // Partials scatter about their comb and strings are stiff: what sounds still is not the number, and it adds up
        // along the chain.
        CHECK(std::abs(one.note.value()) < 6.0);
        CHECK(std::abs(one.interval.value()) < 3.0);
    }
}

TEST_CASE("a step that is heard as it is done beats as the plan says", "[practise]") {
    const Instrument& instrument = *findExample("double-8-8-4");
    for (const char* temperament : {"vallotti", "meantone-quarter"}) {
        REQUIRE(findTemperament(temperament) != nullptr);
        const TunedScale scale{*findTemperament(temperament), ReferencePitch{}};
        for (const BearingStep& step : computedPlan(scale).steps) {
            const auto pair = pairAsLaid(instrument, scale, step, SampleRate(48000.0));
            INFO(temperament << ": " << inWords(step));
            REQUIRE(pair.has_value());
            const auto beat = trueBeat(*pair);
            REQUIRE(beat.has_value());
            CHECK(beat->perSecond() == Approx(step.beat.perSecond()).margin(0.02));
        }
    }
    const TunedScale scale{*findTemperament("vallotti"), ReferencePitch{}};
    // One 8': nothing stands for the fork.
    CHECK_FALSE(pairAsLaid(
        *findExample("spinet"), scale, computedPlan(scale).steps.front(), SampleRate(48000.0)));
}

TEST_CASE("what is left in each step is told in beats and cents", "[practise]") {
    PracticeBearings bearings = bearingsOf("vallotti", 4);
    setAll(bearings, Cents(0.5));
    for (const BearingLeft& one : bearings.left()) {
        if (bearings.sets(one.step)) {
            INFO(inWords(bearings.steps()[one.step]));
            CHECK(one.interval.value() == Approx(0.5).margin(0.1));
            CHECK(one.left > BeatRate(0.0));
        }
    }
}

TEST_CASE("a step may be gone back to, and its string stands as it was left", "[practise]") {
    PracticeBearings bearings = bearingsOf("vallotti", 5);
    bearings.back();
    CHECK(bearings.at() == 0);
    const Hertz first = setTo(bearings, Cents(0.0));
    bearings.leave(first);
    CHECK(bearings.at() == 1);
    bearings.back();
    CHECK(bearings.at() == 0);
    CHECK(bearings.left().empty());
    const PracticePair again = bearings.pair(0);
    const StringId pin = pinOf(again);
    CHECK(again.settings.pitches[pin.choir][pin.course] == first);
    CHECK(std::abs((bearings.exercise().beat - bearings.exercise().wanted).perSecond()) < 0.02);
}
