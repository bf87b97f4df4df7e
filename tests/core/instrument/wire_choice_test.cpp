#include "core/instrument/examples.hpp"
#include "core/instrument/wire_choice.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <set>

using namespace quillbench;

namespace {

WireAdvice adviceFor(const Instrument& instrument, StringId string) {
    return whichWire(instrument,
                     string,
                     instrument.choirs[string.choir].strings[string.course].length,
                     nominalPitch(instrument, string));
}

} // namespace

TEST_CASE("the wire that was there fits where the whole scaling is even", "[instrument]") {
    const Instrument& instrument = exampleInstruments().front();
    for (const std::size_t course : {10U, 25U, 40U, 55U}) {
        INFO(course);
        const StringId string{0, course};
        const WireAdvice advice = adviceFor(instrument, string);
        REQUIRE(advice.neighbours.known);
        CHECK(advice.old == instrument.choirs[0].strings[course]);
        const WireOption& best = advice.options.front();
        CHECK(best.make.material == advice.old.material);
        CHECK(best.make.diameter.value() == Approx(advice.old.diameter.value()).epsilon(0.07));
        CHECK(best.tensionRatio == Approx(1.0).margin(0.12));
    }
}

TEST_CASE("a broken string is judged by its neighbours, not by itself", "[instrument]") {
    Instrument instrument = exampleInstruments().front();
    const double right = instrument.choirs[0].strings[30].diameter.value();
    instrument.choirs[0].strings[30].diameter =
        Millimetre(1.5 * right); // somebody fitted what lay about
    const WireAdvice advice = adviceFor(instrument, {0, 30});
    CHECK(advice.options.front().make.diameter.value() == Approx(right).epsilon(0.07));
    CHECK_FALSE(advice.options.front().asBefore);
}

TEST_CASE("a longer string takes more tension, and wire that would break is not offered",
          "[instrument]") {
    const Instrument& instrument = exampleInstruments().front();
    const StringId string{0, 48};
    const Hertz pitch = nominalPitch(instrument, string);
    const Millimetre length = instrument.choirs[0].strings[48].length;
    // By the law of the stretched string stress grows with the square of the length: iron at 1.2 times its length
    // would break.
    const WireAdvice longer = whichWire(instrument, string, length * 1.2, pitch);
    for (const WireOption& option : longer.options) {
        CHECK(option.state.margin.highSemitones > 0.0);
        CHECK(option.state.stress.value() ==
              Approx(stress(materialOf(option.make), option.make.length, pitch).value()));
    }
    std::set<std::string> offered;
    for (const WireOption& option : longer.options) {
        offered.insert(option.make.material);
    }
    CHECK(offered.contains("steel"));
    CHECK_FALSE(offered.contains("red-brass"));
    // Where none bears it, what there is is shown with its margin below zero.
    const WireAdvice far = whichWire(instrument, string, length * 3.0, pitch);
    REQUIRE_FALSE(far.options.empty());
    CHECK(far.options.front().state.margin.highSemitones < 0.0);
}

TEST_CASE("thicker wire at the same place is tenser and stiffer and dies away sooner",
          "[instrument]") {
    const Instrument& instrument = exampleInstruments().front();
    const WireAdvice advice = adviceFor(instrument, {0, 30});
    for (const WireOption& a : advice.options) {
        for (const WireOption& b : advice.options) {
            if (a.make.material == b.make.material && a.make.diameter > b.make.diameter) {
                // T ~ d², B ~ d⁴/T ~ d².
                const double ratio = std::pow(a.make.diameter / b.make.diameter, 2.0);
                CHECK(a.tensionRatio / b.tensionRatio == Approx(ratio));
                CHECK(a.stiffnessRatio / b.stiffnessRatio == Approx(ratio));
                CHECK(a.sustainRatio < b.sustainRatio);
            }
        }
    }
}

TEST_CASE("gauges ascend, each once, the instrument's own among them", "[instrument]") {
    Instrument instrument = exampleInstruments().front();
    instrument.choirs[0].strings[3].diameter = Millimetre(0.4445);
    const std::vector<Millimetre> gauges = wireGauges(instrument);
    CHECK(std::is_sorted(gauges.begin(), gauges.end()));
    CHECK(std::adjacent_find(gauges.begin(), gauges.end()) == gauges.end());
    CHECK(std::find(gauges.begin(), gauges.end(), Millimetre(0.4445)) != gauges.end());
}
