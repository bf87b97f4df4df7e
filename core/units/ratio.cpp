#include "core/units/ratio.hpp"

#include "core/support/contract.hpp"
#include "core/support/excerpt.hpp"

#include <array>
#include <charconv>
#include <cmath>
#include <numeric>

namespace quillbench {

namespace {

constexpr std::int64_t kLargest = std::int64_t{1} << 62U;
constexpr std::int64_t kLargestRead = 1'000'000;
constexpr double kWidestTempering = 100.0; // cents; beyond, the interval is no fifth

std::optional<std::int64_t> times(std::int64_t a, std::int64_t b) {
    std::int64_t result = 0;
    if (__builtin_mul_overflow(a, b, &result) || result > kLargest || result < -kLargest) {
        return std::nullopt;
    }
    return result;
}

/// "-5.38c"; nothing below 1e-10 cent. The same in every locale.
std::string centsText(Cents cents) {
    std::array<char, 40> buffer{};
    const auto end = std::to_chars(buffer.data(),
                                   buffer.data() + buffer.size(),
                                   std::abs(cents.value()),
                                   std::chars_format::fixed,
                                   10);
    std::string number(buffer.data(), end.ptr);
    number.erase(number.find_last_not_of('0') + 1);
    if (number.back() == '.') {
        number.pop_back();
    }
    return number == "0" ? std::string() : (cents > Cents(0.0) ? "+" : "-") + number + "c";
}

Unexpected<Error> notATempering(std::string_view text) {
    return failure(
        ErrorCode::BadArgument,
        "'" + excerpt(text) +
            "' is not the tempering of a fifth: write 0 (pure), fractions of a comma such "
            "as -1/4S (syntonic), -1/6P (Pythagorean) or -1P+11/4S, a ratio such as "
            "392/393, or cents such as -5.38c, together within -100 to +100 cents");
}

std::optional<std::int64_t> wholeNumber(std::string_view text) {
    std::int64_t value = 0;
    const auto [end, code] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (code != std::errc{} || end != text.data() + text.size() || value < 0 ||
        value > kLargestRead) {
        return std::nullopt;
    }
    return value;
}

/// Reads an unsigned fraction.
std::optional<Fraction> fractionOf(std::string_view text) {
    const std::size_t slash = text.find('/');
    const auto numerator = wholeNumber(text.substr(0, slash));
    const auto denominator = slash == std::string_view::npos ? std::optional<std::int64_t>(1)
                                                             : wholeNumber(text.substr(slash + 1));
    if (!numerator || !denominator || *denominator == 0) {
        return std::nullopt;
    }
    return Fraction(*numerator, *denominator);
}

/// One signed term of a tempering: "1/4S", "1P", "5.38c", "392/393", "0".
std::optional<Tempering> termOf(std::string_view text, bool negative) {
    if (text.empty()) {
        return std::nullopt;
    }
    Tempering term;
    const char unit = text.back();
    if (unit == 'c') {
        const std::string_view number = text.substr(0, text.size() - 1);
        double value = 0.0;
        const auto [end, code] =
            std::from_chars(number.data(), number.data() + number.size(), value);
        if (code != std::errc{} || end != number.data() + number.size() || !std::isfinite(value) ||
            value < 0.0) {
            return std::nullopt;
        }
        term.plain = Cents(negative ? -value : value);
        return term;
    }
    if (unit == 'P' || unit == 'S') {
        const auto amount = fractionOf(text.substr(0, text.size() - 1));
        if (!amount) {
            return std::nullopt;
        }
        (unit == 'P' ? term.pythagorean : term.syntonic) = negative ? -*amount : *amount;
        return term;
    }
    const auto ratio = fractionOf(text);
    if (!ratio || (ratio->isZero() && text != "0") || (negative && !ratio->isZero())) {
        return std::nullopt;
    }
    if (!ratio->isZero()) {
        if (text.find('/') == std::string_view::npos) {
            return std::nullopt;
        }
        term.ratio = *ratio;
    }
    return term;
}

} // namespace

Fraction::Fraction(std::int64_t numerator, std::int64_t denominator) {
    EXPECTS(denominator != 0);
    EXPECTS(numerator <= kLargest && numerator >= -kLargest);
    EXPECTS(denominator <= kLargest && denominator >= -kLargest);
    const std::int64_t divisor = std::gcd(numerator, denominator);
    const std::int64_t sign = denominator < 0 ? -1 : 1;
    numerator_ = sign * numerator / divisor;
    denominator_ = sign * denominator / divisor;
}

double Fraction::value() const {
    return static_cast<double>(numerator_) / static_cast<double>(denominator_);
}

Fraction Fraction::operator-() const {
    Fraction result = *this;
    result.numerator_ = -numerator_;
    return result;
}

Fraction Fraction::inverse() const {
    EXPECTS(numerator_ != 0);
    return Fraction(denominator_, numerator_);
}

std::optional<Fraction> sum(const Fraction& a, const Fraction& b) {
    const std::int64_t shared = std::gcd(a.denominator(), b.denominator());
    const auto left = times(a.numerator(), b.denominator() / shared);
    const auto right = times(b.numerator(), a.denominator() / shared);
    const auto denominator = times(a.denominator(), b.denominator() / shared);
    if (!left || !right || !denominator) {
        return std::nullopt;
    }
    std::int64_t numerator = 0;
    if (__builtin_add_overflow(*left, *right, &numerator) || numerator > kLargest ||
        numerator < -kLargest) {
        return std::nullopt;
    }
    return Fraction(numerator, *denominator);
}

std::optional<Fraction> product(const Fraction& a, const Fraction& b) {
    const Fraction acrossOne(a.numerator(), b.denominator());
    const Fraction acrossTwo(b.numerator(), a.denominator());
    const auto numerator = times(acrossOne.numerator(), acrossTwo.numerator());
    const auto denominator = times(acrossOne.denominator(), acrossTwo.denominator());
    if (!numerator || !denominator) {
        return std::nullopt;
    }
    return Fraction(*numerator, *denominator);
}

std::string toText(const Fraction& fraction) {
    std::string text = std::to_string(fraction.numerator());
    if (fraction.denominator() != 1) {
        text += "/" + std::to_string(fraction.denominator());
    }
    return text;
}

Result<Fraction> parseFraction(std::string_view text) {
    std::string_view digits = text;
    const bool negative = digits.starts_with('-');
    if (negative || digits.starts_with('+')) {
        digits.remove_prefix(1);
    }
    const auto fraction = fractionOf(digits);
    if (!fraction) {
        return failure(
            ErrorCode::BadArgument,
            "'" + excerpt(text) +
                "' is not a fraction: write two whole numbers up to 1000000 such as 3/2");
    }
    return negative ? -*fraction : *fraction;
}

Cents centsOf(const Fraction& ratio) {
    EXPECTS(ratio.numerator() > 0);
    return Cents(1200.0 * std::log2(ratio.value()));
}

Cents pythagoreanComma() {
    return centsOf(Fraction(531441, 524288));
}

Cents syntonicComma() {
    return centsOf(Fraction(81, 80));
}

Cents pureFifth() {
    return centsOf(Fraction(3, 2));
}

Cents Tempering::cents() const {
    return pythagoreanComma() * pythagorean.value() + syntonicComma() * syntonic.value() +
           centsOf(ratio) + plain;
}

bool Tempering::isPure() const {
    return std::abs(cents().value()) < 1e-9;
}

Tempering Tempering::operator-() const {
    return Tempering{-pythagorean, -syntonic, ratio.inverse(), -plain};
}

Tempering operator+(const Tempering& a, const Tempering& b) {
    Tempering result;
    result.plain = a.plain + b.plain;
    if (const auto exact = sum(a.pythagorean, b.pythagorean)) {
        result.pythagorean = *exact;
    } else {
        result.plain += pythagoreanComma() * (a.pythagorean.value() + b.pythagorean.value());
    }
    if (const auto exact = sum(a.syntonic, b.syntonic)) {
        result.syntonic = *exact;
    } else {
        result.plain += syntonicComma() * (a.syntonic.value() + b.syntonic.value());
    }
    if (const auto exact = product(a.ratio, b.ratio)) {
        result.ratio = *exact;
    } else {
        result.plain += centsOf(a.ratio) + centsOf(b.ratio);
    }
    return result;
}

std::string toText(const Tempering& exact) {
    const auto isWritten = [](const Fraction& part) {
        return std::abs(part.numerator()) <= kLargestRead && part.denominator() <= kLargestRead;
    };
    Tempering tempering = exact;
    if (!isWritten(exact.pythagorean)) {
        tempering.pythagorean = Fraction();
        tempering.plain += pythagoreanComma() * exact.pythagorean.value();
    }
    if (!isWritten(exact.syntonic)) {
        tempering.syntonic = Fraction();
        tempering.plain += syntonicComma() * exact.syntonic.value();
    }
    if (!isWritten(exact.ratio)) {
        tempering.ratio = Fraction(1);
        tempering.plain += centsOf(exact.ratio);
    }
    std::string text;
    const auto append = [&text](const Fraction& amount, char unit) {
        if (!amount.isZero()) {
            text += (amount.numerator() > 0 ? "+" : "") + toText(amount) + unit;
        }
    };
    append(tempering.pythagorean, 'P');
    append(tempering.syntonic, 'S');
    text += centsText(tempering.plain);
    if (tempering.ratio != Fraction(1)) {
        text += (text.empty() ? "" : "+") + toText(tempering.ratio);
    }
    return text.empty() ? "0" : text;
}

Result<Tempering> parseTempering(std::string_view text) {
    std::string compact;
    for (const char each : text) {
        if (each != ' ') {
            compact += each;
        }
    }
    Tempering total;
    std::string_view rest = compact;
    if (rest.empty() || rest.size() > 80) {
        return notATempering(text.substr(0, 80));
    }
    while (!rest.empty()) {
        const bool negative = rest.front() == '-';
        if (negative || rest.front() == '+') {
            rest.remove_prefix(1);
        }
        const std::size_t next = rest.find_first_of("+-");
        const auto term = termOf(rest.substr(0, next), negative);
        if (!term) {
            return notATempering(text);
        }
        total = total + *term;
        rest = next == std::string_view::npos ? std::string_view{} : rest.substr(next);
    }
    if (!(std::abs(total.cents().value()) <= kWidestTempering)) {
        return notATempering(text);
    }
    return total;
}

} // namespace quillbench
