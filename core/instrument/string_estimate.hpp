#pragma once

#include "core/instrument/material.hpp"
#include "core/instrument/string.hpp"
#include "core/units/hertz.hpp"
#include "core/units/mechanics.hpp"

#include <vector>

namespace quillbench {

/// The inharmonicity of a string as it was heard, with the pitch of its partial 1.
struct HeardStiffness {
    Hertz pitch;
    double inharmonicity = 0.0; ///< B
    double uncertainty = 0.0;   ///< of B, one standard deviation
};

/// A measure of a string with one standard deviation.
struct EstimatedMeasure {
    Millimetre value;
    Millimetre uncertainty;
};

/// How likely one material is, of all that are known and equally likely before.
struct MaterialChance {
    const Material* material = nullptr;
    double chance = 0.0;
};

// With T = π·ρ·(d·L·f)² the law of stiffness [Fletcher1964], B = π³·E·d⁴/(64·T·L²), is
// B = π²·(E/ρ)·d²/(64·f²·L⁴): each of length, diameter and E/ρ follows from the others. Uncertainties are those of B, of
// E/ρ (5 %), of the gauge (2 %) and of the length (1 %); wire that is wound, tapered or lies in a chipped bridge is none
// of this.
// **Range** B > 0, pitch, length and diameter > 0.

/// Speaking length from B; a length to 2 to 3 % where B is known to 10 %.
[[nodiscard]] EstimatedMeasure
lengthFromStiffness(const Material& material, Millimetre diameter, const HeardStiffness& heard);

/// Diameter from B; to 6 % where B is known to 10 %.
[[nodiscard]] EstimatedMeasure
diameterFromStiffness(const Material& material, Millimetre length, const HeardStiffness& heard);

/// What it may be made of, the likeliest first. Materials of nearly the same E/ρ are not told apart and share.
[[nodiscard]] std::vector<MaterialChance>
materialFromStiffness(Millimetre length, Millimetre diameter, const HeardStiffness& heard);

} // namespace quillbench
