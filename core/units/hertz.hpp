#pragma once

#include "core/units/beat_rate.hpp"
#include "core/units/cents.hpp"

#include <compare>

namespace quillbench {

/// A frequency. Two frequencies divide to a plain number and subtract to a BeatRate; to move one, use
/// transpose(): Hertz + Cents does not compile.
class Hertz {
public:
    constexpr Hertz() = default;

    constexpr explicit Hertz(double value) : value_(value) {}

    [[nodiscard]] constexpr double value() const { return value_; }

    constexpr auto operator<=>(const Hertz&) const = default; // NOLINT(modernize-use-nullptr)

private:
    double value_ = 0.0;
};

constexpr double operator/(Hertz a, Hertz b) {
    return a.value() / b.value();
}

constexpr BeatRate operator-(Hertz a, Hertz b) {
    return BeatRate(a.value() - b.value());
}

constexpr Hertz operator*(Hertz a, double factor) {
    return Hertz(a.value() * factor);
}

constexpr Hertz operator*(double factor, Hertz a) {
    return Hertz(a.value() * factor);
}

constexpr Hertz operator/(Hertz a, double divisor) {
    return Hertz(a.value() / divisor);
}

/// The frequency that lies `by` above (negative: below) `from`.
/// **Range** from > 0. **Accuracy** 1e-12 relative.
[[nodiscard]] Hertz transpose(Hertz from, Cents by);

/// How far `upper` lies above `lower`. **Range** both > 0.
[[nodiscard]] Cents interval(Hertz lower, Hertz upper);

/// A small width in cents at a frequency, in hertz (first order: f·ln 2/1200).
[[nodiscard]] double hertzPerCent(Hertz at);

namespace literals {

constexpr Hertz operator""_Hz(long double value) {
    return Hertz(static_cast<double>(value));
}

} // namespace literals

} // namespace quillbench
