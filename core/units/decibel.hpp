#pragma once

#include <compare>

namespace quillbench {

/// A level re full scale (amplitude 1). Made from an amplitude or a power, never from a bare double.
class Decibel {
public:
    /// −200 dB, below anything that can be heard or stored.
    constexpr Decibel() = default;

    /// 20·log10(amplitude); clamps at −200 dB. **Range** amplitude ≥ 0.
    [[nodiscard]] static Decibel fromAmplitude(double amplitude);

    /// 10·log10(power); clamps at −200 dB. **Range** power ≥ 0.
    [[nodiscard]] static Decibel fromPower(double power);

    [[nodiscard]] constexpr double value() const { return value_; }

    [[nodiscard]] double amplitude() const;

    constexpr auto operator<=>(const Decibel&) const = default; // NOLINT(modernize-use-nullptr)

private:
    friend constexpr Decibel makeDecibel(long double value);
    double value_ = -200.0;
};

/// Behind the literal −30.0_dB.
constexpr Decibel makeDecibel(long double value) {
    Decibel result;
    result.value_ = static_cast<double>(value);
    return result;
}

/// Difference of two levels, in decibels.
constexpr double operator-(Decibel a, Decibel b) {
    return a.value() - b.value();
}

namespace literals {

constexpr Decibel operator""_dB(long double value) {
    return makeDecibel(value);
}

} // namespace literals

/// So that −30.0_dB reads as written.
constexpr Decibel operator-(Decibel a) {
    return makeDecibel(-static_cast<long double>(a.value()));
}

} // namespace quillbench
