#include "core/pitch/interval.hpp"
#include "core/support/random.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace quillbench;

TEST_CASE("a pure interval does not beat and has its ratio", "[unit]") {
    for (const Interval& each : intervals()) {
        INFO(each.id);
        const Hertz lower{207.5};
        const Hertz upper = upperAtBeat(each.kind, lower, BeatRate(0.0));
        CHECK(upper / lower ==
              Approx(static_cast<double>(each.pair.ofLower) / each.pair.ofUpper).epsilon(1e-14));
        CHECK(std::abs(beatRate(each.kind, lower, upper).perSecond()) < 1e-9);
        CHECK(std::abs(widthFromPure(each.kind, lower, upper).value()) < 1e-9);
        CHECK(std::abs(each.pureSize().value() - 100.0 * each.semitones) < 18.0);
        CHECK(&intervalOf(each.kind) == findInterval(each.id));
    }
    CHECK(findInterval("second") == nullptr);
}

TEST_CASE("wide is plus, and the beats grow as the textbook slope says", "[unit]") {
    // Beats of an interval wide by x cents: ofLower · f · x · ln2/1200 for small x (arithmetic).
    Random random(3);
    for (int i = 0; i < 400; ++i) {
        const Interval& each = intervals()[static_cast<std::size_t>(random.uniform(0.0, 14.0))];
        const Hertz lower{random.uniform(60.0, 900.0)};
        const Cents wide{random.uniform(0.01, 2.0)};
        const Hertz upper = transpose(lower, each.pureSize() + wide);
        const double expected =
            each.pair.ofLower * lower.value() * wide.value() * std::log(2.0) / 1200.0;
        CHECK(beatRate(each.kind, lower, upper).perSecond() == Approx(expected).epsilon(1e-3));
        const Hertz narrow = transpose(lower, each.pureSize() - wide);
        CHECK(beatRate(each.kind, lower, narrow).perSecond() < 0.0);
        const BeatRate beat = beatRate(each.kind, lower, narrow);
        CHECK(upperAtBeat(each.kind, lower, beat).value() == Approx(narrow.value()).epsilon(1e-13));
        CHECK(lowerAtBeat(each.kind, narrow, beat).value() == Approx(lower.value()).epsilon(1e-13));
    }
}

TEST_CASE("intervals are told by keys and by spelling", "[unit]") {
    const auto note = [](const char* name) { return *parseNote(name); };
    CHECK(intervalOfKeys(note("C4"), note("G4")) == IntervalKind::Fifth);
    CHECK(intervalOfKeys(note("G#3"), note("Eb4")) == IntervalKind::Fifth);
    CHECK_FALSE(intervalAsSpelled(note("G#3"), note("Eb4")).has_value());
    CHECK(intervalAsSpelled(note("G#3"), note("D#4")) == IntervalKind::Fifth);
    CHECK_FALSE(intervalOfKeys(note("C4"), note("D4")).has_value());
    CHECK_FALSE(intervalOfKeys(note("G4"), note("C4")).has_value());
    CHECK(intervalAsSpelled(note("B3"), note("D#4")) == IntervalKind::MajorThird);
    CHECK_FALSE(intervalAsSpelled(note("B3"), note("Eb4")).has_value());
    for (const Interval& each : intervals()) {
        for (const char* name : {"C2", "F#3", "Bb4", "E5"}) {
            const auto upper = noteAbove(note(name), each.kind);
            REQUIRE(upper.has_value());
            CHECK(intervalAsSpelled(note(name), *upper) == each.kind);
        }
    }
    CHECK(toAscii(*noteAbove(note("B3"), IntervalKind::MajorThird)) == "D#4");
    CHECK(toAscii(*noteAbove(note("F4"), IntervalKind::Fourth)) == "Bb4");
}
