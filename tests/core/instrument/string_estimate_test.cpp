#include "core/instrument/string.hpp"
#include "core/instrument/string_estimate.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace quillbench;

namespace {

// R. W. Young, JASA 24 (1952), as read: Q/ρ of steel wire is 25.5e10 (cm/s)², and the partials are sharp by
// 3.4e13·n²·d²/(f0²·L⁴) cents (centimetres): B = ln 2/600 of that, n = 1.
HeardStiffness steelByYoung(double lengthMm, double diameterMm, double hz) {
    const double cents =
        3.4e13 * std::pow(diameterMm / 10.0, 2) / (hz * hz * std::pow(lengthMm / 10.0, 4));
    const double B = cents * std::log(2.0) / 600.0;
    return {Hertz(hz), B, 0.1 * B};
}

} // namespace

TEST_CASE("length and gauge of a steel string follow from its published stiffness",
          "[instrument]") {
    const Material& steel = *findMaterial("steel");
    const HeardStiffness heard = steelByYoung(600.0, 0.30, 311.0);
    const EstimatedMeasure length = lengthFromStiffness(steel, Millimetre(0.30), heard);
    CHECK(length.value.value() == Approx(600.0).epsilon(0.015));
    CHECK(length.uncertainty.value() ==
          Approx(17.8).epsilon(0.1)); // a quarter of 10, 5 and 4 %, in squares
    const EstimatedMeasure gauge = diameterFromStiffness(steel, Millimetre(600.0), heard);
    CHECK(gauge.value.value() == Approx(0.30).epsilon(0.03));
    CHECK(gauge.uncertainty.value() == Approx(0.0178).epsilon(0.1));
}

TEST_CASE("steel and brass are told apart by their stiffness, kinds of brass are not",
          "[instrument]") {
    const auto iron = materialFromStiffness(
        Millimetre(600.0), Millimetre(0.30), steelByYoung(600.0, 0.30, 311.0));
    double brass = 0.0;
    double sum = 0.0;
    for (const MaterialChance& one : iron) {
        sum += one.chance;
        if (one.material->id.find("brass") != std::string_view::npos) {
            brass += one.chance;
        }
    }
    CHECK(sum == Approx(1.0));
    CHECK(brass < 0.01);
    const StringMake make{Millimetre(1500.0), Millimetre(0.5), "yellow-brass", std::nullopt};
    const double B = inharmonicity(make, Hertz(80.0));
    const auto yellow =
        materialFromStiffness(make.length, make.diameter, {Hertz(80.0), B, 0.1 * B});
    CHECK(yellow.front().chance < 0.6);
    CHECK(yellow.front().chance > yellow.back().chance);
    for (const MaterialChance& one : yellow) {
        if (one.material->id == "steel" || one.material->id == "iron") {
            CHECK(one.chance < 0.01);
        }
    }
}

TEST_CASE("every make of a string comes back from its own stiffness", "[instrument]") {
    for (const Material& material : materials()) {
        const StringMake make{
            Millimetre(350.0), Millimetre(0.24), std::string(material.id), std::nullopt};
        const double B = inharmonicity(make, Hertz(520.0));
        const HeardStiffness heard{Hertz(520.0), B, 0.05 * B};
        CHECK(lengthFromStiffness(material, make.diameter, heard).value.value() ==
              Approx(350.0).epsilon(1e-6));
        CHECK(diameterFromStiffness(material, make.length, heard).value.value() ==
              Approx(0.24).epsilon(1e-6));
    }
}
