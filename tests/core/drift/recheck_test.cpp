#include "core/drift/recheck.hpp"
#include "core/instrument/examples.hpp"
#include "core/instrument/string.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace quillbench;

namespace {

StringFacts factsOfNominal(StringId string) {
    const Instrument& instrument = *findExample("double-8-8-4");
    StringFacts facts;
    facts.target = nominalPitch(instrument, string);
    return facts;
}

std::map<StringId, RecheckReference> allSettled() {
    std::map<StringId, RecheckReference> references;
    for (std::size_t course = 0; course < 61; ++course) {
        const StringId string{2, course};
        references[string] = {factsOfNominal(string).target, Cents(0.1), true};
    }
    return references;
}

} // namespace

TEST_CASE("plucks of one string are averaged and its old reading's doubt is added", "[unit]") {
    Recheck recheck(allSettled());
    recheck.hear({2, 5}, Cents(1.0), Cents(0.2));
    recheck.hear({2, 5}, Cents(2.0), Cents(0.2));
    recheck.hear({0, 5}, Cents(9.0), Cents(0.2)); // no string of this recheck
    REQUIRE(recheck.heard().size() == 1);
    const HeardAgain& heard = recheck.heard().at({2, 5});
    CHECK(heard.plucks == 2);
    CHECK(heard.moved.value() == Approx(1.5));
    CHECK(heard.uncertainty.value() == Approx(0.2 / std::sqrt(2.0)));
    const auto movements = recheck.movements(*findExample("double-8-8-4"));
    REQUIRE(movements.size() == 1);
    CHECK(movements[0].uncertainty.value() == Approx(std::sqrt(0.02 + 0.01)));
    CHECK(movements[0].plucks == 2);
}

TEST_CASE("a string that was tuned since is to be heard again, the others stay heard", "[unit]") {
    Recheck recheck(allSettled());
    recheck.hear({2, 5}, Cents(1.0), Cents(0.2));
    recheck.hear({2, 6}, Cents(1.0), Cents(0.2));
    auto references = allSettled();
    references[{2, 5}].pitch = transpose(references[{2, 5}].pitch, Cents(0.3));
    recheck.compareWith(references);
    CHECK(recheck.heard().count({2, 5}) == 0);
    CHECK(recheck.heard().count({2, 6}) == 1);
}

TEST_CASE("the advice: leave it, one string, or the pitch moved and two strings", "[unit]") {
    const Instrument& instrument = *findExample("double-8-8-4");
    const auto advised = [&](const auto& deviationOf) {
        Recheck recheck(allSettled());
        for (std::size_t course = 0; course < 61; ++course) {
            recheck.hear({2, course}, Cents(deviationOf(course)), Cents(0.1));
        }
        const auto deviations = recheck.deviations(factsOfNominal);
        return adviceFor(deviations,
                         intervalsAmong(instrument, factsOfNominal, deviations, Cents(3.0)));
    };
    // All alike: no interval is out.
    CHECK(advised([](std::size_t) { return -8.0; }).here.strings.empty());
    // One string alone.
    const RecheckAdvice one = advised([](std::size_t course) { return course == 20 ? -6.0 : 0.0; });
    REQUIRE(one.here.strings.size() == 1);
    CHECK(one.here.strings[0].string == StringId{2, 20});
    CHECK(one.here.strings[0].move.value() == Approx(6.0));
    CHECK_FALSE(one.moved);
    // All sank, two by more: at the old pitch everything would have to move.
    const RecheckAdvice two =
        advised([](std::size_t course) { return course == 20 || course == 41 ? -10.0 : -4.0; });
    REQUIRE(two.moved);
    CHECK(two.moved->shift.value() == Approx(-4.0));
    CHECK(two.moved->strings.size() == 2);
    CHECK(two.here.strings.size() > 10);
}

TEST_CASE("a string far off is told before any that it makes an interval with was heard",
          "[unit]") {
    const Instrument& instrument = *findExample("double-8-8-4");
    const auto listed = [&](const std::map<StringId, Cents>& deviations) {
        const RecheckAdvice advice = adviceFor(
            deviations, intervalsAmong(instrument, factsOfNominal, deviations, Cents(3.0)));
        std::vector<StringId> strings;
        for (const ShortListed& one : advice.moved.value_or(advice.here).strings) {
            strings.push_back(one.string);
        }
        return strings;
    };
    const StringId first{2, 0};
    const StringId second{2, 1};
    CHECK(listed({{first, Cents(1.0)}, {second, Cents(23.0)}}) == std::vector<StringId>{second});
    CHECK(listed({{first, Cents(-23.0)}, {second, Cents(1.0)}}) == std::vector<StringId>{first});
    // Alike, or nothing that a semitone would let anybody hear: there is no interval to judge yet.
    for (const double both : {-1.0, 23.0}) {
        const std::map<StringId, Cents> two{{first, Cents(both)}, {second, Cents(both + 4.0)}};
        CHECK(intervalsAmong(instrument, factsOfNominal, two, Cents(3.0)).empty());
    }
    // A third above is an interval, by which it is judged as ever.
    const std::map<StringId, Cents> three{
        {first, Cents(0.0)}, {second, Cents(0.0)}, {{2, 4}, Cents(23.0)}};
    CHECK(intervalsAmong(instrument, factsOfNominal, three, Cents(3.0)).size() ==
          intervalsAmong(instrument,
                         factsOfNominal,
                         {{first, Cents(0.0)}, {second, Cents(0.0)}, {{2, 4}, Cents(0.0)}},
                         Cents(3.0))
              .size());
}

TEST_CASE("where most strings are out they are told from the pitch that is wanted", "[unit]") {
    const Instrument& instrument = *findExample("double-8-8-4");
    std::map<StringId, Cents> deviations;
    for (std::size_t course = 0; course < 12; ++course) {
        // Two stay where they are at a pitch seven cents lower, ten do not.
        const double off = course % 2 == 0 ? 20.0 : -25.0;
        deviations[{2, course}] = Cents(course == 0 || course == 7 ? -7.0 : off);
    }
    const RecheckAdvice advice =
        adviceFor(deviations, intervalsAmong(instrument, factsOfNominal, deviations, Cents(3.0)));
    CHECK(advice.here.strings.size() > 6);
    CHECK_FALSE(advice.moved);
}

TEST_CASE("intervals are asked for only between strings that were heard", "[unit]") {
    const Instrument& instrument = *findExample("double-8-8-4");
    const std::map<StringId, Cents> two{{{2, 0}, Cents(0)}, {{2, 12}, Cents(0)}};
    CHECK(intervalsAmong(instrument, factsOfNominal, two, Cents(3.0)).size() == 1);
    const std::map<StringId, Cents> lonely{{{2, 0}, Cents(0)}};
    CHECK(intervalsAmong(instrument, factsOfNominal, lonely, Cents(3.0)).empty());
}
