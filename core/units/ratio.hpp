#pragma once

#include "core/support/result.hpp"
#include "core/units/cents.hpp"

#include <compare>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace quillbench {

/// An exact rational number in lowest terms: a just ratio such as 3/2, or a fraction of a comma such as −1/4.
class Fraction {
public:
    constexpr Fraction() = default;

    /// **Range** denominator ≠ 0; both within ±2^62. Reduced to lowest terms with a positive denominator.
    explicit Fraction(std::int64_t numerator, std::int64_t denominator = 1);

    [[nodiscard]] std::int64_t numerator() const { return numerator_; }

    [[nodiscard]] std::int64_t denominator() const { return denominator_; }

    [[nodiscard]] double value() const;

    [[nodiscard]] bool isZero() const { return numerator_ == 0; }

    bool operator==(const Fraction&) const = default;

    Fraction operator-() const;

    /// 1/x. **Range** x ≠ 0.
    [[nodiscard]] Fraction inverse() const;

private:
    std::int64_t numerator_ = 0;
    std::int64_t denominator_ = 1;
};

/// Exact sum; empty where it does not fit into 62 bits.
[[nodiscard]] std::optional<Fraction> sum(const Fraction& a, const Fraction& b);

/// Exact product; empty where it does not fit into 62 bits.
[[nodiscard]] std::optional<Fraction> product(const Fraction& a, const Fraction& b);

/// "3/2", "-1/4", "5".
[[nodiscard]] std::string toText(const Fraction& fraction);

/// Reads "3/2", "-1/4", "+1/6", "5". **Range** numerator and denominator up to 1 000 000.
/// **Errors** BadArgument, naming the text and the form expected.
[[nodiscard]] Result<Fraction> parseFraction(std::string_view text);

/// Size of a just ratio. **Range** ratio > 0.
[[nodiscard]] Cents centsOf(const Fraction& ratio);

/// Twelve pure fifths less seven octaves, 531441/524288: 23.460 cents.
[[nodiscard]] Cents pythagoreanComma();

/// Four pure fifths less two octaves and a pure major third, 81/80: 21.506 cents.
[[nodiscard]] Cents syntonicComma();

/// 3/2: 701.955 cents.
[[nodiscard]] Cents pureFifth();

/// How far a fifth is from 3/2, exactly: a·Pythagorean comma + b·syntonic comma, a ratio, and a part in plain
/// cents for what was measured or given so. Negative is narrow.
struct Tempering {
    Fraction pythagorean;
    Fraction syntonic;
    Fraction ratio{1}; ///< > 0
    Cents plain;

    bool operator==(const Tempering&) const = default;

    /// **Accuracy** 1e-12 cent per part.
    [[nodiscard]] Cents cents() const;

    [[nodiscard]] bool isPure() const;

    Tempering operator-() const;
};

/// Adds part by part. What no longer fits into 62 bits goes on as plain cents.
[[nodiscard]] Tempering operator+(const Tempering& a, const Tempering& b);

/// "-1/4S", "-1P+11/4S", "392/393", "-5.38c", "0" (pure): P Pythagorean comma, S syntonic comma, c cents. A part whose
/// numbers are above 1 000 000 is written in cents.
[[nodiscard]] std::string toText(const Tempering& tempering);

/// Reads what toText writes (within 1e-10 cent a part), with or without spaces and + signs.
/// **Range** the sum within ±100 cents. **Errors** BadArgument, naming the text and the forms allowed.
[[nodiscard]] Result<Tempering> parseTempering(std::string_view text);

} // namespace quillbench
