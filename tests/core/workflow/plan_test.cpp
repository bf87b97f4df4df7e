#include "core/instrument/examples.hpp"
#include "core/workflow/plan.hpp"

#include <catch2/catch.hpp>

#include <string>

using namespace quillbench;

namespace {

Instrument chromatic(const char* lowest, int keys) {
    Instrument instrument;
    const int low = parseNote(lowest)->midiNumber();
    for (int i = 0; i < keys; ++i) {
        static const char* const names[] = {
            "C", "C#", "D", "Eb", "E", "F", "F#", "G", "G#", "A", "Bb", "B"};
        const int midi = low + i;
        Key key;
        key.note = *parseNote(names[midi % 12] + std::to_string(midi / 12 - 1));
        instrument.compass.keys.push_back(key);
    }
    instrument.choirs.resize(1);
    instrument.choirs[0].strings.resize(static_cast<std::size_t>(keys));
    return instrument;
}

std::string names(const TuningPlan& plan) {
    std::string text;
    for (const TuningStep& step : plan.steps) {
        text += toAscii(step.note) + " ";
    }
    return text;
}

PlanOptions octaveFrom(const char* lowest, StepOrder order) {
    PlanOptions options;
    options.bearingsFrom = *parseNote(lowest);
    options.bearingsOrder = order;
    return options;
}

StringFacts facts(StringId string) {
    return StringFacts{Hertz(100.0 + static_cast<double>(string.course)), 0.0, Cents(20.0), {}};
}

} // namespace

TEST_CASE("the first octave has thirteen strings, A first and outward or upwards", "[unit]") {
    const Instrument instrument = chromatic("C2", 49);
    const auto fromA = planFirstOctave(instrument, octaveFrom("C3", StepOrder::FromA), facts);
    REQUIRE(fromA);
    CHECK(names(*fromA) == "A3 G#3 Bb3 G3 B3 F#3 C4 F3 E3 Eb3 D3 C#3 C3 ");
    const auto upwards = planFirstOctave(instrument, octaveFrom("F3", StepOrder::Chromatic), facts);
    REQUIRE(upwards);
    CHECK(names(*upwards) == "F3 F#3 G3 G#3 A3 Bb3 B3 C4 C#4 D4 Eb4 E4 F4 ");
    CHECK(upwards->steps[0].string == StringId{0, 17});
    CHECK(upwards->stepOf(StringId{0, 18}) == std::optional<std::size_t>(1));
    CHECK_FALSE(upwards->stepOf(StringId{0, 2}));
}

TEST_CASE("each string carries its target and its ceiling", "[unit]") {
    const auto plan =
        planFirstOctave(chromatic("C2", 49), octaveFrom("C3", StepOrder::Chromatic), facts);
    REQUIRE(plan);
    CHECK(plan->steps[3].facts.target.value() == Approx(115.0));
    CHECK(plan->steps[3].ceiling.value() == Approx(5.0));
}

TEST_CASE("an octave that the compass lacks is refused in one line", "[unit]") {
    const auto plan =
        planFirstOctave(chromatic("C3", 12), octaveFrom("C3", StepOrder::FromA), facts);
    REQUIRE_FALSE(plan);
    CHECK(plan.error().text.find("choose C3 or F3") != std::string::npos);
}

TEST_CASE("an octave takes the tolerance of the bearings, the way to the target and felt",
          "[unit]") {
    const Instrument& instrument = *findExample("double-8-8-4");
    PlanOptions options = octaveFrom("C3", StepOrder::FromA);
    options.tolerances.bearings = Cents(0.4);
    options.approach = Approach::FromBelow;
    options.feltOnSilenced = true;
    const auto plan = planFirstOctave(instrument, options, facts);
    REQUIRE(plan);
    CHECK(plan->approach == Approach::FromBelow);
    for (const TuningStep& step : plan->steps) {
        CHECK(step.tolerance.value() == Approx(0.4));
        CHECK_FALSE(step.alone.felt.empty());
    }
    options.feltOnSilenced = false;
    CHECK(planFirstOctave(instrument, options, facts)->steps.front().alone.felt.empty());
}
