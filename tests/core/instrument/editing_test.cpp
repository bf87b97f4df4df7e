#include "core/instrument/editing.hpp"
#include "core/instrument/examples.hpp"
#include "core/instrument/limits.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <random>
#include <set>

using namespace quillbench;

namespace {

Note noteNamed(const char* text) {
    const auto note = parseNote(text);
    REQUIRE(note);
    return *note;
}

const Instrument& exampleNamed(const char* id) {
    const Instrument* found = findExample(id);
    REQUIRE(found != nullptr);
    return *found;
}

/// What everything else relies on.
void checkWhole(const Instrument& instrument) {
    REQUIRE_FALSE(instrument.compass.keys.empty());
    REQUIRE_FALSE(instrument.choirs.empty());
    REQUIRE_FALSE(instrument.registers.empty());
    const auto [low, high] =
        std::minmax_element(instrument.positions.begin(), instrument.positions.end());
    const std::size_t courses =
        instrument.compass.keys.size() + static_cast<std::size_t>(*high - *low);
    std::set<std::string> ids;
    for (const Choir& choir : instrument.choirs) {
        CHECK(choir.strings.size() == courses);
        CHECK(choir.pins.size() == courses);
        CHECK(ids.insert(choir.id).second);
        for (const StringMake& make : choir.strings) {
            CHECK(kLengthLimits.holds(make.length.value()));
            CHECK(kDiameterLimits.holds(make.diameter.value()));
        }
    }
    ids.clear();
    for (const JackRegister& row : instrument.registers) {
        CHECK(row.choir < instrument.choirs.size());
        CHECK(row.manual < instrument.manuals.size());
        CHECK(ids.insert(row.id).second);
        CHECK((!row.dogleg || instrument.manuals.size() > 1));
    }
    CHECK((!instrument.buffChoir || *instrument.buffChoir < instrument.choirs.size()));
    CHECK((instrument.coupler == Coupler::None || instrument.manuals.size() > 1));
}

} // namespace

TEST_CASE("an instrument stays whole under any row of changes", "[instrument]") {
    std::mt19937 random(20261127);
    const auto below = [&](std::size_t count) {
        return std::uniform_int_distribution<std::size_t>(0, count - 1)(random);
    };
    for (const Instrument& example : exampleInstruments()) {
        Instrument instrument = example;
        for (int change = 0; change < 60; ++change) {
            Result<Instrument> next = instrument;
            switch (below(8)) {
            case 0:
                next = withChoir(
                    instrument,
                    std::array{Footage::Sixteen, Footage::Eight, Footage::Four}.at(below(3)));
                break;
            case 1:
                next = withoutChoir(instrument, below(instrument.choirs.size()));
                break;
            case 2:
                next = withRegister(instrument, below(instrument.choirs.size()));
                break;
            case 3:
                next = withoutRegister(instrument, below(instrument.registers.size()));
                break;
            case 4:
                next = withManuals(instrument, 1 + below(3));
                break;
            case 5:
                next = withCoupler(instrument, below(2) == 0 ? Coupler::Shove : Coupler::None);
                break;
            case 6:
                next = withPositions(
                    instrument, below(2) == 0 ? std::vector<int>{0} : std::vector<int>{-1, 0, 2});
                break;
            default:
                next = withCompass(instrument,
                                   bassOctaves().at(below(bassOctaves().size())),
                                   noteNamed(below(2) == 0 ? "C2" : "F1"),
                                   noteNamed(below(2) == 0 ? "C6" : "F6"),
                                   below(2) == 0);
            }
            if (next) {
                instrument = *next;
            }
            checkWhole(instrument);
        }
    }
}

TEST_CASE("the compasses of the trade have as many keys as they are known to have",
          "[instrument]") {
    // Common practice, no source: C/E-c''' 45, FF-f''' 61, C-c''' 49 keys; split E♭ and G♯ add two to an octave.
    const Instrument& from = exampleNamed("double-8-8-4");
    const auto keys = [&](const char* bass, const char* low, const char* high, bool split) {
        const auto made = withCompass(from, bass, noteNamed(low), noteNamed(high), split);
        REQUIRE(made);
        return made->compass.keys.size();
    };
    CHECK(keys("short C/E", "C2", "C6", false) == 45);
    CHECK(keys("chromatic", "F1", "F6", false) == 61);
    CHECK(keys("chromatic", "C2", "C6", false) == 49);
    CHECK(keys("chromatic", "C4", "C5", true) == 15);
}

TEST_CASE("a keyboard that is made shorter and long again keeps the strings that stayed",
          "[instrument]") {
    const Instrument& from = exampleNamed("double-8-8-4");
    const auto shorter = withCompass(from, "chromatic", noteNamed("C2"), noteNamed("C6"), false);
    REQUIRE(shorter);
    for (std::size_t c = 0; c < from.choirs.size(); ++c) {
        const auto here = stringOf(*shorter, c, noteNamed("A3"));
        const auto before = stringOf(from, c, noteNamed("A3"));
        REQUIRE(here);
        REQUIRE(before);
        CHECK(shorter->choirs[c].strings[here->course] == from.choirs[c].strings[before->course]);
        CHECK(shorter->choirs[c].pins[here->course].place == static_cast<int>(here->course) + 1);
    }
    const auto longer = withCompass(*shorter, "chromatic", noteNamed("F1"), noteNamed("F6"), false);
    REQUIRE(longer);
    for (std::size_t c = 0; c < longer->choirs.size(); ++c) {
        const std::vector<StringMake>& strings = longer->choirs[c].strings;
        for (std::size_t i = 1; i < strings.size(); ++i) {
            CHECK(strings[i].length.value() < strings[i - 1].length.value());
        }
    }
}

TEST_CASE("a new 4′ is laid where the 8′ has strings of its pitch", "[instrument]") {
    const auto made = withChoir(exampleNamed("single-8-8"), Footage::Four);
    REQUIRE(made);
    const std::size_t four = made->choirs.size() - 1;
    CHECK(made->choirs[four].id == "4");
    CHECK(made->registers.back().choir == four);
    const auto of4 = stringOf(*made, four, noteNamed("C4"));
    const auto of8 = stringOf(*made, 0, noteNamed("C5"));
    REQUIRE(of4);
    REQUIRE(of8);
    CHECK(made->choirs[four].strings[of4->course].length ==
          made->choirs[0].strings[of8->course].length);
    const auto second = withChoir(*made, Footage::Four);
    REQUIRE(second);
    CHECK(second->choirs.back().id == "4b");
}

TEST_CASE("lengths between two that are known lie straight in log length", "[instrument]") {
    Instrument instrument = exampleNamed("double-8-8-4");
    std::vector<StringMake>& strings = instrument.choirs[0].strings;
    strings[12].length = Millimetre(1600.0);
    strings[24].length = Millimetre(800.0);
    const auto between = withLengthsBetween(instrument, 0, 12, 24);
    REQUIRE(between);
    const Instrument& filled = *between;
    // Halfway by semitones between 1600 and 800: 1600/√2.
    CHECK(filled.choirs[0].strings[18].length.value() == Approx(1131.37).margin(0.01));
    CHECK(filled.choirs[0].strings[11].length == strings[11].length);
    CHECK(filled.choirs[0].strings[25].length == strings[25].length);
    const auto taken = withWireOfFirst(instrument, 0, 12, 24);
    REQUIRE(taken);
    const Instrument& wired = *taken;
    CHECK(wired.choirs[0].strings[24].material == strings[12].material);
    CHECK(wired.choirs[0].strings[24].diameter == strings[12].diameter);
    CHECK(wired.choirs[0].strings[25] == strings[25]);
    CHECK_FALSE(withLengthsBetween(instrument, 0, 12, 13));
    CHECK_FALSE(withWireOfFirst(instrument, 0, 12, 12));
}

TEST_CASE("what an instrument cannot be is said in one line", "[instrument]") {
    const Instrument& one = exampleNamed("single-8-8");
    const Instrument& two = exampleNamed("double-8-8-4");
    CHECK_FALSE(withCoupler(one, Coupler::Shove));
    CHECK_FALSE(withManuals(one, 0));
    CHECK_FALSE(withManuals(one, 4));
    CHECK_FALSE(withStandard(one, 700.0));
    CHECK_FALSE(withPositions(one, {1, 2}));
    CHECK_FALSE(withPositions(one, {0, 0}));
    CHECK_FALSE(withCompass(one, "chromatic", noteNamed("C6"), noteNamed("C2"), false));
    CHECK_FALSE(withCompass(one, "short C/E", noteNamed("C2"), noteNamed("C3"), false));
    CHECK_FALSE(withCompass(one, "sideways", noteNamed("C2"), noteNamed("C6"), false));
    JackRegister dogleg = one.registers[0];
    dogleg.dogleg = true;
    CHECK_FALSE(withRegisterAs(one, 0, dogleg));
    CHECK(withRegisterAs(two, 0, [&] {
        JackRegister row = two.registers[0];
        row.dogleg = true;
        return row;
    }()));
    StringMake make = one.choirs[0].strings[0];
    make.diameter = Millimetre(9.0);
    const auto thick = withString(one, {0, 0}, make, {});
    REQUIRE_FALSE(thick);
    CHECK(thick.error().text.find('\n') == std::string::npos);
    CHECK(thick.error().text.find("0.05 to 3 mm") != std::string::npos);
    make.diameter = Millimetre(0.3);
    make.material = "cheese";
    CHECK_FALSE(withString(one, {0, 0}, make, {}));
    Instrument only = one;
    while (only.registers.size() > 1) {
        only = *withoutRegister(only, 0);
    }
    CHECK_FALSE(withoutRegister(only, 0));
}

TEST_CASE("a pin that no harpsichord has is refused, and one of a file stays as it is",
          "[instrument]") {
    // Common practice, no source: rows and pins that wrest planks have.
    Instrument from = exampleNamed("double-8-8-4");
    const StringId string{0, 3};
    const StringMake make = from.choirs[0].strings[3];
    CHECK(withString(from, string, make, PinPlace{2, 31}));
    CHECK(withString(from, string, make, PinPlace{0, 0})); // not known
    for (const PinPlace absurd : {PinPlace{13, 4}, PinPlace{1, 401}, PinPlace{-1, 4}}) {
        const auto refused = withString(from, string, make, absurd);
        REQUIRE_FALSE(refused);
        CHECK(refused.error().text.find("rows 1 to 12") != std::string::npos);
    }
    from.choirs[0].pins[3] = PinPlace{900, 4};
    const auto moved = withString(from, string, make, PinPlace{900, 5});
    REQUIRE(moved);
    CHECK(moved->choirs[0].pins[3].row == 900);
}
