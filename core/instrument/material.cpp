#include "core/instrument/material.hpp"

#include "core/support/contract.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace quillbench {

namespace {

constexpr ValueSource kHandbook{"handbook", Evidence::Memory};

// Young 1952 gives modulus over density, 25.5e6 m²/s²; with 7850 kg/m³ that is 200.2 GPa.
constexpr ValueSource kYoung{"[Young1952]: E/density = 25.5e6 m2/s2", Evidence::Verified};
constexpr ValueSource kCuZn30{"[C26000]", Evidence::Verified};
constexpr ValueSource kCuZn15{"[C23000]", Evidence::Verified};

constexpr std::array<Material, 7> kMaterials{{
    {"iron",
     "soft iron (historical kind)",
     KilogramPerCubicMetre(7800.0),
     Gigapascal(200.0),
     1.17e-5,
     Millimetre(0.20),
     {Megapascal(1000.0), Megapascal(1200.0)},
     Millimetre(0.50),
     {Megapascal(900.0), Megapascal(1050.0)},
     kHandbook,
     {"as steel", Evidence::Memory},
     {"as steel", Evidence::Memory},
     {"iron of the 17th and 18th centuries, 900-1200 MPa ([Goodway1987] and others); that thin "
      "wire is "
      "the stronger is sure, the split over diameters is ours",
      Evidence::Memory}},
    {"steel",
     "steel (music wire)",
     KilogramPerCubicMetre(7850.0),
     Gigapascal(200.0),
     1.17e-5,
     Millimetre(0.30),
     {Megapascal(2370.0), Megapascal(2940.0)},
     Millimetre(0.50),
     {Megapascal(2200.0), Megapascal(2740.0)},
     kHandbook,
     kYoung,
     kHandbook,
     {"[EN10270-1]: SM to DH at 0.3 mm and SM at 0.5 mm as makers print them, DH at 0.5 mm from "
      "memory",
      Evidence::Verified}},
    {"yellow-brass",
     "yellow brass (CuZn30)",
     KilogramPerCubicMetre(8530.0),
     Gigapascal(110.0),
     1.998e-5,
     Millimetre(0.20),
     {Megapascal(703.0), Megapascal(889.0)},
     Millimetre(0.50),
     {Megapascal(634.0), Megapascal(807.0)},
     kCuZn30,
     kCuZn30,
     kCuZn30,
     {"[C26000wire]: hard to extra hard wire for the thin, three-quarter hard to hard for the "
      "thick; "
      "which temper at which diameter is ours",
      Evidence::Verified}},
    {"red-brass",
     "red brass (CuZn15)",
     KilogramPerCubicMetre(8750.0),
     Gigapascal(110.0),
     1.9e-5,
     Millimetre(0.20),
     {Megapascal(483.0), Megapascal(590.0)},
     Millimetre(0.50),
     {Megapascal(483.0), Megapascal(590.0)},
     kHandbook,
     kCuZn15,
     kCuZn15,
     {"[C23000]: hard to spring temper of strip; fine wire may stand more", Evidence::Verified}},
    {"red-brass-90",
     "red brass (CuZn10)",
     KilogramPerCubicMetre(8800.0),
     Gigapascal(115.0),
     1.84e-5,
     Millimetre(0.20),
     {Megapascal(420.0), Megapascal(560.0)},
     Millimetre(0.50),
     {Megapascal(420.0), Megapascal(560.0)},
     kHandbook,
     kHandbook,
     kHandbook,
     kHandbook},
    {"bronze",
     "phosphor bronze (CuSn8)",
     KilogramPerCubicMetre(8850.0),
     Gigapascal(110.0),
     1.8e-5,
     Millimetre(0.20),
     {Megapascal(700.0), Megapascal(1000.0)},
     Millimetre(0.50),
     {Megapascal(700.0), Megapascal(1000.0)},
     kHandbook,
     kHandbook,
     kHandbook,
     kHandbook},
    {"silver",
     "sterling silver (Ag925)",
     KilogramPerCubicMetre(10360.0),
     Gigapascal(76.0),
     1.9e-5,
     Millimetre(0.20),
     {Megapascal(400.0), Megapascal(600.0)},
     Millimetre(0.50),
     {Megapascal(400.0), Megapascal(600.0)},
     kHandbook,
     kHandbook,
     kHandbook,
     kHandbook},
}};

void append(std::string& line, std::string_view what, const ValueSource& source) {
    if (!line.empty()) {
        line += "; ";
    }
    line += what;
    line += ": ";
    line += source.text;
    line += " (";
    line += toText(source.evidence);
    line += ")";
}

} // namespace

std::string_view toText(Evidence evidence) {
    return evidence == Evidence::Verified ? "verified" : "value from memory";
}

std::span<const Material> materials() {
    return kMaterials;
}

const Material* findMaterial(std::string_view id) {
    const auto found = std::find_if(
        kMaterials.begin(), kMaterials.end(), [&](const Material& m) { return m.id == id; });
    return found == kMaterials.end() ? nullptr : &*found;
}

std::string materialIds() {
    std::string ids;
    for (const Material& material : kMaterials) {
        ids += ids.empty() ? "" : ", ";
        ids += material.id;
    }
    return ids;
}

StrengthRange strength(const Material& material, Millimetre diameter) {
    EXPECTS(diameter.value() > 0.0);
    const double place = std::clamp(
        std::log(diameter / material.thin) / std::log(material.thick / material.thin), 0.0, 1.0);
    const auto between = [&](Megapascal thin, Megapascal thick) {
        return thin + (thick - thin) * place;
    };
    return {between(material.thinStrength.low, material.thickStrength.low),
            between(material.thinStrength.high, material.thickStrength.high)};
}

std::string sourceLine(const Material& material) {
    std::string line;
    append(line, "density", material.densitySource);
    append(line, "modulus", material.modulusSource);
    append(line, "expansion", material.expansionSource);
    append(line, "strength", material.strengthSource);
    return line;
}

} // namespace quillbench
