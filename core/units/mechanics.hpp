#pragma once

#include <compare>

namespace quillbench {

/// A quantity that carries one unit; the tag keeps lengths from forces. Scales by plain numbers only.
template <typename Tag>
class Quantity {
public:
    constexpr Quantity() = default;

    constexpr explicit Quantity(double value) : value_(value) {}

    [[nodiscard]] constexpr double value() const { return value_; }

    constexpr auto operator<=>(const Quantity&) const = default; // NOLINT(modernize-use-nullptr)

    friend constexpr Quantity operator+(Quantity a, Quantity b) {
        return Quantity(a.value_ + b.value_);
    }

    friend constexpr Quantity operator-(Quantity a, Quantity b) {
        return Quantity(a.value_ - b.value_);
    }

    friend constexpr Quantity operator*(Quantity a, double factor) {
        return Quantity(a.value_ * factor);
    }

    friend constexpr double operator/(Quantity a, Quantity b) { return a.value_ / b.value_; }

private:
    double value_ = 0.0;
};

using Millimetre = Quantity<struct MillimetreTag>;
using Newton = Quantity<struct NewtonTag>;
using Megapascal = Quantity<struct MegapascalTag>;
using Gigapascal = Quantity<struct GigapascalTag>;
using KilogramPerMetre = Quantity<struct KilogramPerMetreTag>;
using KilogramPerCubicMetre = Quantity<struct KilogramPerCubicMetreTag>;
using Degree = Quantity<struct DegreeTag>; ///< of pin turn; positive sharpens
using Kelvin = Quantity<struct KelvinTag>; ///< a difference of temperature

} // namespace quillbench
