#include "core/instrument/examples.hpp"
#include "core/temperament/catalogue.hpp"
#include "core/workflow/load_change.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

using namespace quillbench;

namespace {

TunedScale scaleAt(const char* id, double a4Hz) {
    const Temperament* found = findTemperament(id);
    REQUIRE(found != nullptr);
    return {*found, ReferencePitch{Hertz(a4Hz)}};
}

const Instrument& scaled() {
    return *findExample("double-8-8-4");
}

} // namespace

TEST_CASE("the load grows with the square of the pitch", "[unit]") {
    // Law of the stretched string (Mersenne): T is proportional to f².
    const LoadChange change =
        loadChange(scaled(), scaleAt("vallotti", 415.0), scaleAt("vallotti", 440.0));
    CHECK(change.then / change.now == Approx(std::pow(440.0 / 415.0, 2.0)).epsilon(1e-9));
    Newton sum;
    for (const ChoirLoad& choir : change.choirs) {
        CHECK(choir.then > choir.now);
        sum = sum + choir.now;
    }
    CHECK(sum.value() == Approx(change.now.value()));
    std::size_t strings = 0;
    for (const Choir& choir : scaled().choirs) {
        strings += choir.strings.size();
    }
    CHECK(change.strings.size() == strings);
}

TEST_CASE("a semitone up takes a semitone of margin, and strings near breaking come first",
          "[unit]") {
    const double semitone = std::pow(2.0, 1.0 / 12.0);
    const LoadChange change =
        loadChange(scaled(), scaleAt("equal", 415.0), scaleAt("equal", 415.0 * semitone));
    for (const StringChange& one : change.strings) {
        CHECK(one.move.value() == Approx(100.0));
        CHECK(one.now.margin.lowSemitones - one.then.margin.lowSemitones == Approx(1.0));
    }
    const auto all = stringsWithin(change, 1e3);
    CHECK(all.size() == change.strings.size());
    CHECK(std::is_sorted(all.begin(), all.end(), [](const StringChange& a, const StringChange& b) {
        return a.then.margin.lowSemitones < b.then.margin.lowSemitones;
    }));
    for (const StringChange& one : stringsWithin(change, 2.0)) {
        CHECK(one.then.margin.lowSemitones < 2.0);
    }
}

TEST_CASE("another temperament at the same pitch moves strings, but hardly the load", "[unit]") {
    const LoadChange change =
        loadChange(scaled(), scaleAt("equal", 415.0), scaleAt("meantone-quarter", 415.0));
    CHECK(std::abs(change.then / change.now - 1.0) < 0.01);
    for (const StringChange& one : change.strings) {
        if (keyNote(scaled(), one.string).pitchClass == PitchClass{Letter::C, 0}) {
            // Quarter-comma meantone, anchored at A: C is 10.3 cents above equal (Barbour 1951, value from memory).
            CHECK(one.move.value() == Approx(10.26).margin(0.05));
        }
    }
}
