#pragma once

#include <compare>

namespace quillbench {

/// A logarithmic interval: 1200 cents to the octave (A. J. Ellis). Positive is upwards.
class Cents {
public:
    constexpr Cents() = default;

    constexpr explicit Cents(double value) : value_(value) {}

    [[nodiscard]] constexpr double value() const { return value_; }

    constexpr auto operator<=>(const Cents&) const = default; // NOLINT(modernize-use-nullptr)

    constexpr Cents operator-() const { return Cents(-value_); }

    constexpr Cents& operator+=(Cents other) {
        value_ += other.value_;
        return *this;
    }

    constexpr Cents& operator-=(Cents other) {
        value_ -= other.value_;
        return *this;
    }

private:
    double value_ = 0.0;
};

constexpr Cents operator+(Cents a, Cents b) {
    return Cents(a.value() + b.value());
}

constexpr Cents operator-(Cents a, Cents b) {
    return Cents(a.value() - b.value());
}

constexpr Cents operator*(Cents a, double factor) {
    return Cents(a.value() * factor);
}

constexpr Cents operator*(double factor, Cents a) {
    return Cents(a.value() * factor);
}

constexpr Cents operator/(Cents a, double divisor) {
    return Cents(a.value() / divisor);
}

/// Size without direction.
constexpr Cents abs(Cents a) {
    return a.value() < 0.0 ? -a : a;
}

namespace literals {

constexpr Cents operator""_ct(long double value) {
    return Cents(static_cast<double>(value));
}

} // namespace literals

} // namespace quillbench
