#include "core/instrument/string.hpp"

#include "core/support/contract.hpp"

#include <cmath>
#include <numbers>

namespace quillbench {

namespace {

using std::numbers::pi;

constexpr double kMetrePerMillimetre = 1e-3;
constexpr double kPascalPerMegapascal = 1e6;
constexpr double kPascalPerGigapascal = 1e9;
constexpr double kCentsPerRelativeTension = 600.0 / std::numbers::ln2;

double metres(Millimetre length) {
    return length.value() * kMetrePerMillimetre;
}

double area(Millimetre diameter) {
    return pi * metres(diameter) * metres(diameter) / 4.0;
}

/// Cents by which pitch rises for a small elongation per length.
double centsPerStrain(const Material& material, Megapascal stress) {
    return kCentsPerRelativeTension * material.youngModulus.value() * kPascalPerGigapascal /
           (stress.value() * kPascalPerMegapascal);
}

} // namespace

KilogramPerMetre massPerMetre(const Material& material, Millimetre diameter) {
    return KilogramPerMetre(material.density.value() * area(diameter));
}

Megapascal stress(const Material& material, Millimetre length, Hertz pitch) {
    EXPECTS(length.value() > 0.0 && pitch.value() > 0.0);
    const double waveSpeed = 2.0 * metres(length) * pitch.value();
    return Megapascal(material.density.value() * waveSpeed * waveSpeed / kPascalPerMegapascal);
}

Newton tension(const Material& material, const StringMake& make, Hertz pitch) {
    EXPECTS(make.diameter.value() > 0.0);
    return Newton(stress(material, make.length, pitch).value() * kPascalPerMegapascal *
                  area(make.diameter));
}

Hertz pitchAtTension(const Material& material, const StringMake& make, Newton tension) {
    EXPECTS(tension.value() > 0.0 && make.length.value() > 0.0 && make.diameter.value() > 0.0);
    return Hertz(std::sqrt(tension.value() / massPerMetre(material, make.diameter).value()) /
                 (2.0 * metres(make.length)));
}

double inharmonicity(const Material& material, const StringMake& make, Hertz pitch) {
    const double d = metres(make.diameter);
    const double L = metres(make.length);
    const double E = material.youngModulus.value() * kPascalPerGigapascal;
    return pi * pi * pi * E * d * d * d * d /
           (64.0 * tension(material, make, pitch).value() * L * L);
}

double breakingMargin(Megapascal stress, Megapascal strength) {
    EXPECTS(stress.value() > 0.0 && strength.value() > 0.0);
    return 6.0 * std::log2(strength / stress);
}

Cents centsPerDegree(const Material& material,
                     const StringMake& make,
                     Hertz pitch,
                     Millimetre pin) {
    EXPECTS(pin.value() > 0.0);
    const double strain = pi * pin.value() / 360.0 / make.length.value();
    return Cents(centsPerStrain(material, stress(material, make.length, pitch)) * strain);
}

Cents centsPerKelvin(const Material& material,
                     const StringMake& make,
                     Hertz pitch,
                     double frameExpansionPerKelvin) {
    return Cents(-centsPerStrain(material, stress(material, make.length, pitch)) *
                 (material.expansionPerKelvin - frameExpansionPerKelvin));
}

const Material& materialOf(const StringMake& make) {
    const Material* material = findMaterial(make.material);
    EXPECTS(material != nullptr);
    return *material;
}

StringState stringState(const StringMake& make, Hertz pitch) {
    const Material& material = materialOf(make);
    StringState state;
    state.tension = tension(material, make, pitch);
    state.stress = stress(material, make.length, pitch);
    state.strength = strength(material, make.diameter);
    state.margin.lowSemitones =
        breakingMargin(state.stress, state.strength.low * (1.0 - kLoopAllowance));
    state.margin.highSemitones = breakingMargin(state.stress, state.strength.high);
    state.inharmonicity = inharmonicity(material, make, pitch);
    state.massPerMetre = massPerMetre(material, make.diameter);
    if (make.pinDiameter) {
        state.centsPerDegree = centsPerDegree(material, make, pitch, *make.pinDiameter);
    }
    state.centsPerKelvin = centsPerKelvin(material, make, pitch);
    return state;
}

double inharmonicity(const StringMake& make, Hertz pitch) {
    return inharmonicity(materialOf(make), make, pitch);
}

} // namespace quillbench
