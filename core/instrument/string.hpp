#pragma once

#include "core/instrument/instrument.hpp"
#include "core/instrument/material.hpp"
#include "core/units/cents.hpp"
#include "core/units/hertz.hpp"
#include "core/units/mechanics.hpp"

#include <optional>

namespace quillbench {

// Symbols as in [Fletcher1964] and [Young1952]: L speaking length, d diameter, ρ density, E Young's modulus,
// T tension, σ = 4T/(πd²) stress, f frequency of the ideally flexible string, f = 1/(2L)·√(σ/ρ).

/// How far a string could be raised before it breaks: a range, because wire of one name differs. Never to be
/// called safe: low may be below zero on a string that has stood for years.
struct BreakingMargin {
    double lowSemitones = 0.0;  ///< weakest wire of its kind, less what loops and kinks take
    double highSemitones = 0.0; ///< strongest wire, without a flaw
};

/// What can be computed of one string at one pitch.
struct StringState {
    Newton tension;
    Megapascal stress;
    StrengthRange strength; ///< of straight wire of this diameter
    BreakingMargin margin;
    double inharmonicity = 0.0; ///< B in f_n = n·f0·√(1 + B·n²)
    KilogramPerMetre massPerMetre;
    std::optional<Cents> centsPerDegree; ///< of pin turn; where the pin's diameter is known
    Cents centsPerKelvin;                ///< when wire and frame warm together; negative: flattens
};

/// Part of the wire's strength that bends at loop, pins and kinks may take away, in the lower bound of the
/// margin. Half of the 20 % that a wire seller keeps as reserve; the half is ours. **Source** [VogelScheer].
inline constexpr double kLoopAllowance = 0.10;

/// Linear expansion of wood along the grain, 1/K: what holds bridge and nut apart. 3e-6 … 5e-6; value from
/// memory ([FPLWoodHandbook]).
inline constexpr double kWoodExpansionPerKelvin = 4e-6;

/// m/L = ρ·π·d²/4.
[[nodiscard]] KilogramPerMetre massPerMetre(const Material& material, Millimetre diameter);

/// σ = ρ·(2·L·f)²: does not depend on the diameter. **Source** law of the stretched string (Mersenne, Taylor).
[[nodiscard]] Megapascal stress(const Material& material, Millimetre length, Hertz pitch);

/// T = σ·π·d²/4.
[[nodiscard]] Newton tension(const Material& material, const StringMake& make, Hertz pitch);

/// The pitch of a string under a tension; the inverse of tension(). **Range** tension > 0.
[[nodiscard]] Hertz
pitchAtTension(const Material& material, const StringMake& make, Newton tension);

/// B = π³·E·d⁴/(64·T·L²). **Source** [Fletcher1964]; [Young1952] gives the same in cents.
[[nodiscard]] double inharmonicity(const Material& material, const StringMake& make, Hertz pitch);

/// 6·log2(strength/σ), in semitones, because σ grows with the square of the pitch. **Range** both > 0.
[[nodiscard]] double breakingMargin(Megapascal stress, Megapascal strength);

/// First-order rise of pitch when the pin turns by one degree: wire as long as the pin's circumference/360 is
/// wound up, and only the speaking length yields: (600/ln 2)·(E/σ)·(π·pin/360)/L.
/// **Deviation** an upper bound: the wire behind nut and bridge stretches too, which takes off 10–25 % in the
/// tenor and half or more where it is longer than the speaking length, in the top of a 4′. The wire's own
/// thickness on the pin (5–10 % more), friction at the nut, bending of the pin and give of the bridge are
/// left out as well.
/// **Source** Hooke's law.
[[nodiscard]] Cents
centsPerDegree(const Material& material, const StringMake& make, Hertz pitch, Millimetre pin);

/// First-order change of pitch when string and frame warm by one kelvin:
/// −(600/ln 2)·(E/σ)·(α − α_frame). A frame that does not move at all is 0. Humidity is not in it.
/// **Source** Hooke's law.
[[nodiscard]] Cents centsPerKelvin(const Material& material,
                                   const StringMake& make,
                                   Hertz pitch,
                                   double frameExpansionPerKelvin = kWoodExpansionPerKelvin);

/// Everything at once. **Range** pitch, length, diameter > 0; make.material known.
[[nodiscard]] StringState stringState(const StringMake& make, Hertz pitch);

/// B of a make. **Range** as stringState.
[[nodiscard]] double inharmonicity(const StringMake& make, Hertz pitch);

/// The material of a make. **Range** known.
[[nodiscard]] const Material& materialOf(const StringMake& make);

} // namespace quillbench
