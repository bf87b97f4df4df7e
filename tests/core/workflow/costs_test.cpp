#include "core/instrument/examples.hpp"
#include "core/support/random.hpp"
#include "core/temperament/catalogue.hpp"
#include "core/workflow/change_over.hpp"
#include "core/workflow/first_look.hpp"
#include "core/workflow/minutes.hpp"
#include "core/workflow/sounding_pairs.hpp"
#include "core/workflow/whole_plan.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace quillbench;

namespace {

TunedScale scaleOf(const Temperament& temperament, double a4 = 415.0) {
    return {temperament, {Hertz(a4), {{Letter::A, 0}, 4}}};
}

const Instrument& two() {
    return *findExample("double-8-8-4");
}

std::map<StringId, Cents> mistuned(Random& random, double most) {
    std::map<StringId, Cents> deviations;
    for (std::size_t choir = 0; choir < two().choirs.size(); ++choir) {
        for (std::size_t course = 0; course < two().choirs[choir].strings.size(); ++course) {
            deviations[{choir, course}] = Cents(random.uniform(-most, most));
        }
    }
    return deviations;
}

} // namespace

TEST_CASE("the player's speed is the median of what was logged, an ordinary one where nothing was",
          "[unit]") {
    CHECK(speedFrom({}).toTune.count() == Approx(45.0));
    const std::vector<Seconds> quick(200, Seconds(20.0));
    CHECK(speedFrom(quick).toTune.count() == Approx(20.0).epsilon(0.03));
    const std::vector<Seconds> one{Seconds(20.0)};
    CHECK(speedFrom(one).toTune.count() > 35.0);
}

TEST_CASE("the pitch that leaves most alone is where most strings stand", "[unit]") {
    std::vector<FoundString> found;
    Random random(3);
    for (std::size_t course = 0; course < 60; course += 5) {
        found.push_back({{0, course}, Cents(-6.0 + random.uniform(-0.5, 0.5)), Cents(0.1)});
        found.push_back({{2, course}, Cents(3.0 + random.uniform(-4.0, 4.0)), Cents(0.1)});
    }
    const auto offers =
        pitchOffers(two(), found, Cents(1.0), {}, FoundString{{0, 40}, Cents(-9.0), Cents(0.4)});
    REQUIRE(offers.size() == 3);
    CHECK(offers[1].shift.value() == Approx(-6.0).margin(1.0));
    CHECK(offers[1].strings < offers[0].strings);
    CHECK(offers[1].time < offers[0].time);
    CHECK(offers[2].shift.value() == Approx(-9.0));
    CHECK(offers[2].shiftUncertainty.value() == Approx(0.4));
    CHECK(offers[0].furthestUp.value() == Approx(6.5).margin(0.5));
    // Choir 8b was not heard: it counts like the rest. All three of 61 strings.
    CHECK(offers[0].strings <= 183.0);
    const auto moves = expectedMoves(two(), found, Cents(0.0));
    CHECK(moves[0].value() == Approx(6.0).margin(0.3));
    CHECK(moves[1].value() == Approx(0.0));
}

TEST_CASE(
    "minutes are spent where they are heard, and every stopping point is no worse than before",
    "[unit]") {
    Random random(9);
    const TunedScale scale = scaleOf(*findTemperament("vallotti"));
    const FactsOfString facts = factsFor(two(), scale);
    for (int run = 0; run < 5; ++run) {
        auto deviations = mistuned(random, 6.0);
        Programme programme;
        programme.choirs = {0, 2};
        for (std::size_t key = 20; key < 40; ++key) {
            programme.keys.push_back(key);
        }
        const UseOfMinutes use =
            bestUse(Seconds(14 * 60.0), two(), facts, deviations, programme, {});
        CHECK(use.strings.size() <= 18); // 14 minutes at 45 s
        REQUIRE(use.strings.size() > 5);
        double wrong = soundsWrong(two(), facts, deviations, programme);
        CHECK(use.before == Approx(wrong));
        for (const RankedString& one : use.strings) {
            CHECK(one.until <= Seconds(14 * 60.0));
            CHECK(one.string.choir != 1);
            CHECK(one.move.value() == Approx(-deviations[one.string].value()));
            deviations[one.string] = Cents(0.0);
            const double now = soundsWrong(two(), facts, deviations, programme);
            CHECK(now < wrong);
            wrong = now;
        }
        CHECK(use.after == Approx(wrong).margin(1e-6));
    }
}

TEST_CASE("a single string far out comes first", "[unit]") {
    const TunedScale scale = scaleOf(*findTemperament("vallotti"));
    const StringId bad = *stringOf(two(), 1, *parseNote("A4"));
    const UseOfMinutes use =
        bestUse(Seconds(60.0), two(), factsFor(two(), scale), {{bad, Cents(-8.0)}}, {}, {});
    REQUIRE(use.strings.size() == 1);
    CHECK(use.strings[0].string == bad);
    CHECK(use.after == Approx(0.0).margin(1e-9));
}

TEST_CASE("a broken string means its register off, unless it is the last 8'", "[unit]") {
    const TunedScale scale = scaleOf(*findTemperament("vallotti"));
    const FactsOfString facts = factsFor(two(), scale);
    const StringId four = *stringOf(two(), 2, *parseNote("A3"));
    const StringId eight = *stringOf(two(), 0, *parseNote("A3"));
    Programme programme;
    programme.choirs = {0, 2};
    const UseOfMinutes use = bestUse(Seconds(60.0), two(), facts, {}, programme, {}, {four, eight});
    CHECK(use.choirsOff == std::vector<std::size_t>{2});
    CHECK(use.missing == std::vector<StringId>{eight});
}

TEST_CASE("a unison across choirs beats as its strings differ", "[unit]") {
    const TunedScale scale = scaleOf(*findTemperament("equal"));
    const auto pairs = soundingPairs(two(), factsFor(two(), scale), {{}, {0, 1}, 0});
    const StringId a4 = *stringOf(two(), 0, *parseNote("A4"));
    const auto found = std::find_if(pairs.begin(), pairs.end(), [&](const SoundingPair& pair) {
        return pair.interval == IntervalKind::Unison && (pair.lower == a4 || pair.upper == a4);
    });
    REQUIRE(found != pairs.end());
    // One cent at 415 Hz is 0.2397 beats a second: 415 ln 2/1200, psychoacoustics' slope factor 5.776e-4.
    CHECK(found->beatsPerCent == Approx(415.0 * 5.776e-4).epsilon(1e-3));
}

TEST_CASE(
    "from E flat to D sharp in quarter-comma meantone each moves by the great diesis, flatwards",
    "[unit]") {
    // The diesis is 128/125 = 41.06 cents (Barbour 1951; value of the ratio by arithmetic); E♭ is the higher.
    const Temperament& meantone = *findTemperament("meantone-quarter");
    const auto sharper = meantone.withRoot({Letter::G, 0});
    REQUIRE(sharper);
    const ThereAndBack both =
        changeOver(two(), scaleOf(meantone), {}, scaleOf(*sharper), Cents(0.0), Cents(0.5), {});
    // F1 to F6 holds five keys E♭ on each of three choirs.
    REQUIRE(both.there.strings.size() == 15);
    for (const StringMove& one : both.there.strings) {
        CHECK(one.move.value() == Approx(-41.06).margin(0.01));
        CHECK(keyNote(two(), one.string).midiNumber() % 12 == 3);
    }
    CHECK(both.back.strings.size() == 15);
    CHECK(both.back.furthestUp.value() == Approx(41.06).margin(0.01));
    CHECK(both.there.time.count() == Approx(15 * 45.0));
}

TEST_CASE("shifting the whole leaves more strings alone than holding to A", "[unit]") {
    const TunedScale now = scaleOf(*findTemperament("vallotti"));
    const TunedScale wanted = scaleOf(*findTemperament("young-2"));
    const Cents shift = shiftThatMovesFewest(two(), now, {}, wanted, Cents(0.5));
    const auto held = changeOver(two(), now, {}, wanted, Cents(0.0), Cents(0.5), {});
    const auto shifted = changeOver(two(), now, {}, wanted, shift, Cents(0.5), {});
    CHECK(shifted.there.strings.size() <= held.there.strings.size());
    CHECK(std::abs(shift.value()) <= 5.0);
    // What never moved need not come back, and all that comes back was moved.
    CHECK(shifted.back.strings.size() <= shifted.there.strings.size());
}
