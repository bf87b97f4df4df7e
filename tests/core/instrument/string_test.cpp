#include "core/instrument/examples.hpp"
#include "core/instrument/string.hpp"
#include "tests/support/golden.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>
#include <string>

using namespace quillbench;

namespace {

double goldenQuantity(const test::GoldenRow& row) {
    const std::string quantity = row.text("quantity");
    const Material* material = findMaterial(row.text("material"));
    REQUIRE(material != nullptr);
    const StringMake make{Millimetre(row.number("length_mm")),
                          Millimetre(row.number("diameter_mm")),
                          row.text("material"),
                          std::nullopt};
    const Hertz pitch(row.number("pitch_hz"));
    const double extra = row.number("extra");
    const Megapascal load = stress(*material, make.length, pitch);
    const double B = inharmonicity(make, pitch);
    if (quantity == "young_constant") {
        // cents = C·n²·d²/(f0²·L⁴) in centimetres, and to first order cents = (600/ln 2)·B·n².
        const double d = make.diameter.value() / 10.0;
        const double L = make.length.value() / 10.0;
        return 600.0 / std::numbers::ln2 * B * pitch.value() * pitch.value() * std::pow(L, 4) /
               (d * d);
    }
    if (quantity == "stress") {
        return load.value();
    }
    if (quantity == "margin") {
        return breakingMargin(load, Megapascal(extra));
    }
    if (quantity == "reserve") {
        return breakingMargin(load * extra, load);
    }
    if (quantity == "stress_rise") {
        return 100.0 * (stress(*material, make.length, Hertz(extra)) / load - 1.0);
    }
    if (quantity == "inharmonicity") {
        return B;
    }
    if (quantity == "tension") {
        return tension(*material, make, pitch).value();
    }
    if (quantity == "partial_cents") {
        return 600.0 * std::log2(1.0 + B * extra * extra);
    }
    if (quantity == "thermal") {
        return centsPerKelvin(*material, make, pitch, extra).value();
    }
    if (quantity == "cents_per_degree") {
        return centsPerDegree(*material, make, pitch, Millimetre(extra)).value();
    }
    FAIL("golden quantity " << quantity << " is not known");
    return 0.0;
}

StringMake anyMake() {
    return StringMake{Millimetre(GENERATE(take(4, random(60.0, 1800.0)))),
                      Millimetre(GENERATE(take(3, random(0.18, 0.8)))),
                      std::string(GENERATE("iron", "yellow-brass", "red-brass", "steel")),
                      Millimetre(4.8)};
}

} // namespace

TEST_CASE("published and worked values of strings come out", "[golden]") {
    for (const auto& row : test::goldenRows("strings.csv")) {
        INFO(row.text("quantity") << ' ' << row.text("material") << ' ' << row.text("length_mm")
                                  << " mm: " << row.text("source"));
        CHECK(goldenQuantity(row) == Approx(row.number("value")).margin(row.number("tolerance")));
    }
}

TEST_CASE("pitch and tension are inverse to each other", "[unit]") {
    const StringMake make = anyMake();
    const Material& material = materialOf(make);
    const Hertz pitch(220.0);
    const Newton load = tension(material, make, pitch);
    CHECK(pitchAtTension(material, make, load).value() == Approx(220.0).epsilon(1e-12));
    CHECK(pitchAtTension(material, make, load * 4.0).value() == Approx(440.0).epsilon(1e-12));
}

TEST_CASE("stress depends on length and pitch alone, B on the fourth power of length", "[unit]") {
    const StringMake make = anyMake();
    const Material& material = materialOf(make);
    StringMake thicker = make;
    thicker.diameter = make.diameter * 2.0;
    StringMake longer = make;
    longer.length = make.length * 2.0;
    const Hertz pitch(100.0);
    CHECK(stringState(thicker, pitch).stress.value() ==
          Approx(stringState(make, pitch).stress.value()).epsilon(1e-12));
    CHECK(tension(material, thicker, pitch).value() ==
          Approx(4.0 * tension(material, make, pitch).value()).epsilon(1e-12));
    CHECK(inharmonicity(thicker, pitch) == Approx(4.0 * inharmonicity(make, pitch)).epsilon(1e-12));
    CHECK(inharmonicity(longer, pitch) == Approx(inharmonicity(make, pitch) / 16.0).epsilon(1e-12));
}

TEST_CASE("cents a degree and cents a kelvin are the slopes of the elastic string", "[unit]") {
    // Independent of the formulas: stretch the wire, take its tension by Hooke's law, and the pitch from it.
    const StringMake make = anyMake();
    const Material& material = materialOf(make);
    const Hertz pitch(150.0);
    const double load = tension(material, make, pitch).value();
    const double stiffness = material.youngModulus.value() * 1e9 * std::numbers::pi *
                             std::pow(make.diameter.value() * 1e-3, 2) / 4.0;
    const auto centsFor = [&](double strain) {
        return interval(pitch, pitchAtTension(material, make, Newton(load + stiffness * strain)))
            .value();
    };
    const double turn = 1e-4; // degrees
    const double wound = std::numbers::pi * 4.8 * turn / 360.0 / make.length.value();
    const StringState state = stringState(make, pitch);
    REQUIRE(state.centsPerDegree);
    CHECK(centsFor(wound) / turn == Approx(state.centsPerDegree->value()).epsilon(1e-3));
    const double warm = 1e-5; // kelvin
    const double slack = -(material.expansionPerKelvin - kWoodExpansionPerKelvin) * warm;
    CHECK(centsFor(slack) / warm == Approx(state.centsPerKelvin.value()).epsilon(1e-3));
}

TEST_CASE("thin wire is the stronger, within the range of its kind", "[unit]") {
    // [Goodway1987] for iron; S. Birkett, PTG CAUT 2002-November/007160 (verified) for all drawn wire.
    for (const Material& material : materials()) {
        INFO(material.id);
        StrengthRange last = strength(material, Millimetre(0.1));
        for (const double diameter : {0.2, 0.25, 0.3, 0.4, 0.5, 0.8}) {
            const StrengthRange here = strength(material, Millimetre(diameter));
            CHECK(here.low.value() < here.high.value());
            CHECK(here.low.value() <= last.low.value());
            CHECK(here.high.value() <= last.high.value());
            last = here;
        }
        CHECK(strength(material, Millimetre(0.8)).low == material.thickStrength.low);
        CHECK(findMaterial(material.id) == &material);
    }
    CHECK(findMaterial("gut") == nullptr);
}

TEST_CASE("the low margin takes something off for loops and kinks, the high one nothing",
          "[unit]") {
    const StringMake make{Millimetre(350), Millimetre(0.23), "iron", std::nullopt};
    const StringState state = stringState(make, Hertz(493.88));
    CHECK(state.margin.lowSemitones ==
          Approx(6.0 * std::log2(0.9 * state.strength.low.value() / state.stress.value())));
    CHECK(state.margin.highSemitones ==
          Approx(6.0 * std::log2(state.strength.high.value() / state.stress.value())));
    // Margin of treble strings of historical instruments about 1.5 to 3 semitones (value from memory): it must
    // lie inside what the range allows.
    CHECK(state.margin.lowSemitones < 1.5);
    CHECK(state.margin.highSemitones > 1.5);
    CHECK_FALSE(state.centsPerDegree);
}

TEST_CASE("brass in the bass drifts as tuners have seen it drift", "[unit]") {
    // F. Sturm, PTG CAUT 2009-December/005269 (verified): case cooled by about 11 K, brass bass +25 to +50
    // cents, that is -2.3 to -4.5 cents a kelvin; brass more than steel.
    const Instrument* instrument = findExample("double-8-8-4");
    REQUIRE(instrument != nullptr);
    const auto perKelvin = [&](std::size_t course) {
        const StringId id{0, course};
        return stringState(instrument->choirs[0].strings[course], nominalPitch(*instrument, id))
            .centsPerKelvin.value();
    };
    CHECK(perKelvin(14) < -2.3); // G2, yellow brass
    CHECK(perKelvin(14) > -4.5);
    CHECK(perKelvin(43) > perKelvin(14)); // C5, iron
    CHECK(perKelvin(43) < 0.0);
}

TEST_CASE("every material says where its values are from", "[unit]") {
    for (const Material& material : materials()) {
        const std::string line = sourceLine(material);
        INFO(line);
        for (const char* word : {"density: ", "modulus: ", "expansion: ", "strength: "}) {
            CHECK(line.find(word) != std::string::npos);
        }
        CHECK((line.find("(verified)") != std::string::npos ||
               line.find("(value from memory)") != std::string::npos));
        CHECK(materialIds().find(material.id) != std::string::npos);
    }
}
