#pragma once

#include "core/units/mechanics.hpp"

#include <span>
#include <string>
#include <string_view>

namespace quillbench {

/// Whether a value was read in a stored text, or is a handbook value written down from memory.
enum class Evidence { Verified, Memory };

/// "verified" or "value from memory".
[[nodiscard]] std::string_view toText(Evidence evidence);

/// Where a value is from.
struct ValueSource {
    std::string_view text;
    Evidence evidence = Evidence::Memory;
};

/// Tensile strength that wire of one diameter may have.
struct StrengthRange {
    Megapascal low;
    Megapascal high;
};

/// A wire material. Drawing hardens wire: thin wire stands more stress than thick (tensile pick-up), so
/// strength is given at two diameters.
struct Material {
    std::string_view id;
    std::string_view name;
    KilogramPerCubicMetre density;
    Gigapascal youngModulus;
    double expansionPerKelvin = 0.0; ///< linear, 1/K
    Millimetre thin;                 ///< diameter at and below which thinStrength holds
    StrengthRange thinStrength;
    Millimetre thick; ///< diameter at and above which thickStrength holds
    StrengthRange thickStrength;
    ValueSource densitySource;
    ValueSource modulusSource;
    ValueSource expansionSource;
    ValueSource strengthSource;
};

/// Every material known, in the order in which strings of an instrument go from treble to bass.
[[nodiscard]] std::span<const Material> materials();

/// Nothing where no material has this id.
[[nodiscard]] const Material* findMaterial(std::string_view id);

/// The ids, for messages: "iron, steel, yellow-brass, …".
[[nodiscard]] std::string materialIds();

/// Strength of wire of a diameter: between the two tabulated diameters in proportion to the logarithm of the
/// diameter. **Range** diameter > 0.
[[nodiscard]] StrengthRange strength(const Material& material, Millimetre diameter);

/// The sources of all four properties in one line, each with "verified" or "value from memory".
[[nodiscard]] std::string sourceLine(const Material& material);

} // namespace quillbench
