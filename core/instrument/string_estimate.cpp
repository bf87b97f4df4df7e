#include "core/instrument/string_estimate.hpp"

#include "core/support/contract.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace quillbench {

namespace {

constexpr double kElasticityU = 0.05; // relative, of E/ρ: handbooks differ by about so much
constexpr double kGaugeU = 0.02;      // relative; common practice, no source
constexpr double kLengthU = 0.01;     // relative; common practice, no source

/// E/ρ in m²/s².
double specificModulus(const Material& material) {
    return material.youngModulus.value() * 1e9 / material.density.value();
}

double relativeUncertainty(const HeardStiffness& heard) {
    EXPECTS(heard.inharmonicity > 0.0);
    return heard.uncertainty / heard.inharmonicity;
}

Millimetre millimetres(double metres) {
    return Millimetre(1000.0 * metres);
}

/// π²/(64·f²·B), so that L⁴ is this · (E/ρ) · d².
double lawOfStiffness(const HeardStiffness& heard) {
    const double f = heard.pitch.value();
    return std::numbers::pi * std::numbers::pi / (64.0 * f * f * heard.inharmonicity);
}

} // namespace

EstimatedMeasure
lengthFromStiffness(const Material& material, Millimetre diameter, const HeardStiffness& heard) {
    const double d = diameter.value() / 1000.0;
    const double length = std::pow(lawOfStiffness(heard) * specificModulus(material) * d * d, 0.25);
    const double relative =
        0.25 * std::hypot(relativeUncertainty(heard), kElasticityU, 2.0 * kGaugeU);
    return {millimetres(length), millimetres(relative * length)};
}

EstimatedMeasure
diameterFromStiffness(const Material& material, Millimetre length, const HeardStiffness& heard) {
    const double l = length.value() / 1000.0;
    const double diameter = l * l / std::sqrt(lawOfStiffness(heard) * specificModulus(material));
    const double relative =
        0.5 * std::hypot(relativeUncertainty(heard), kElasticityU, 4.0 * kLengthU);
    return {millimetres(diameter), millimetres(relative * diameter)};
}

std::vector<MaterialChance>
materialFromStiffness(Millimetre length, Millimetre diameter, const HeardStiffness& heard) {
    const double l = length.value() / 1000.0;
    const double d = diameter.value() / 1000.0;
    const double wanted = std::pow(l, 4) / (lawOfStiffness(heard) * d * d);
    const double unsure = std::hypot(
        std::hypot(relativeUncertainty(heard), kElasticityU), 4.0 * kLengthU, 2.0 * kGaugeU);
    std::vector<MaterialChance> all;
    double whole = 0.0;
    double nearest = 1e300;
    for (const Material& material : materials()) {
        nearest = std::min(nearest, std::abs(std::log(specificModulus(material) / wanted)));
    }
    for (const Material& material : materials()) {
        const double off = std::log(specificModulus(material) / wanted) / unsure;
        const double least = nearest / unsure;
        const double chance = std::exp(-0.5 * (off * off - least * least));
        all.push_back({&material, chance});
        whole += chance;
    }
    for (MaterialChance& one : all) {
        one.chance /= whole;
    }
    std::stable_sort(all.begin(), all.end(), [](const MaterialChance& a, const MaterialChance& b) {
        return a.chance > b.chance;
    });
    return all;
}

} // namespace quillbench
