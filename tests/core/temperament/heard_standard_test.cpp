#include "core/temperament/catalogue.hpp"
#include "core/temperament/heard_standard.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <vector>

using namespace quillbench;

namespace {

constexpr Hertz kLow{370.0};
constexpr Hertz kHigh{570.0};

const Temperament& equal() {
    return *findTemperament("equal");
}

/// A and the eleven notes above it by a temperament, each moved by what `off` says.
std::vector<HeardTone> twelve(const Temperament& temperament, double a4, const double (&off)[12]) {
    std::vector<HeardTone> tones;
    const TunedScale scale{temperament, ReferencePitch{Hertz(a4), {{Letter::A, 0}, 4}}};
    for (int step = 0; step < 12; ++step) {
        for (const PitchClass& note : temperament.notes()) {
            if (note.chroma() == (9 + step) % 12) {
                const Note here{note, static_cast<std::int8_t>(step < 3 ? 4 : 5)};
                tones.push_back({transpose(scale.pitchOf(here), Cents(off[step])), Cents(0.24)});
            }
        }
    }
    return tones;
}

} // namespace

TEST_CASE("an A of any octave tells the standard", "[unit]") {
    for (const double hz : {110.25, 220.5, 441.0, 882.0, 1764.0}) {
        const auto heard =
            heardStandard(std::vector{HeardTone{Hertz(hz), Cents(0.3)}}, equal(), kLow, kHigh);
        REQUIRE(heard);
        CHECK(heard->a4.value() == Approx(441.0));
        CHECK(heard->uncertainty.value() == Approx(0.3));
        CHECK_FALSE(heard->ofTwelve());
        CHECK(heard->notes.count() == 1);
    }
}

TEST_CASE("what is no A tells nothing", "[unit]") {
    CHECK_FALSE(heardStandard({}, equal(), kLow, kHigh));
    // An E: 330 and 660 Hz lie outside what an A can be.
    CHECK_FALSE(
        heardStandard(std::vector{HeardTone{Hertz(660.0), Cents(0.3)}}, equal(), kLow, kHigh));
}

TEST_CASE("of an A heard twice the surer counts", "[unit]") {
    const auto heard = heardStandard(
        std::vector{HeardTone{Hertz(440.0), Cents(2.0)}, HeardTone{Hertz(440.4), Cents(0.2)}},
        equal(),
        kLow,
        kHigh);
    REQUIRE(heard);
    CHECK(heard->a4.value() == Approx(440.4));
    CHECK(heard->uncertainty.value() == Approx(0.2));
}

TEST_CASE("twelve notes tell their mean and its uncertainty", "[unit]") {
    // By hand: six notes 2 cents high and six low but for A, which is 4 low instead of 2: mean −2/12 of a cent; the sum
    // of squares about it is 11·4 + 16 − 12/36, its eleventh part 5.4242, the root 2.3290.
    const double off[12] = {-4.0, 2.0, -2.0, 2.0, -2.0, 2.0, -2.0, 2.0, -2.0, 2.0, -2.0, 2.0};
    for (const char* id : {"equal", "vallotti", "meantone-quarter"}) {
        const Temperament& temperament = *findTemperament(id);
        std::vector<HeardTone> tones = twelve(temperament, 415.0, off);
        REQUIRE(tones.size() == 12);
        const HeardTone last = tones.back();
        tones.pop_back();
        const auto before = heardStandard(tones, temperament, kLow, kHigh);
        REQUIRE(before);
        CHECK_FALSE(before->ofTwelve());
        CHECK(interval(Hertz(415.0), before->a4).value() == Approx(-4.0));
        tones.push_back(last);
        const auto heard = heardStandard(tones, temperament, kLow, kHigh);
        INFO(id);
        REQUIRE(heard);
        CHECK(heard->ofTwelve());
        CHECK(interval(Hertz(415.0), heard->a4).value() == Approx(-2.0 / 12.0).margin(1e-6));
        CHECK(heard->scatter.value() == Approx(2.3290).margin(1e-3));
        // 0.24 cents of each reading over the root of twelve, and the scatter over it.
        CHECK(heard->uncertainty.value() ==
              Approx(std::hypot(0.24, 2.3290) / std::sqrt(12.0)).margin(1e-3));
    }
}
