#include "core/support/random.hpp"
#include "core/units/ratio.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <numeric>

using namespace quillbench;

TEST_CASE("fractions stay in lowest terms with a positive denominator", "[unit]") {
    CHECK(Fraction(6, -8).numerator() == -3);
    CHECK(Fraction(6, -8).denominator() == 4);
    CHECK(Fraction(0, 5) == Fraction(0, 1));
    CHECK(*sum(Fraction(1, 4), Fraction(-1, 6)) == Fraction(1, 12));
    CHECK(*product(Fraction(3, 2), Fraction(4, 3)) == Fraction(2));
    CHECK(Fraction(-3, 4).inverse() == Fraction(-4, 3));
}

TEST_CASE("an exact sum or product that does not fit is refused, never wrong", "[unit]") {
    const Fraction large(std::int64_t{1} << 61U, 3);
    CHECK_FALSE(product(large, large).has_value());
    CHECK_FALSE(sum(large, Fraction(1, (std::int64_t{1} << 40U) + 1)).has_value());
    Tempering a;
    a.ratio = Fraction((std::int64_t{1} << 61U) + 1, std::int64_t{1} << 61U);
    Tempering b;
    b.ratio = Fraction((std::int64_t{1} << 60U) + 7, std::int64_t{1} << 60U);
    CHECK((a + b).cents().value() == Approx(a.cents().value() + b.cents().value()).margin(1e-12));
}

TEST_CASE("the commas have their known sizes", "[unit]") {
    // 3^12/2^19 and 81/80; sizes in [Barbour1951] (value from memory), arithmetic.
    CHECK(pythagoreanComma().value() == Approx(23.460010).margin(5e-7));
    CHECK(syntonicComma().value() == Approx(21.506290).margin(5e-7));
    CHECK((pythagoreanComma() - syntonicComma()).value() == Approx(1.953721).margin(5e-7));
    CHECK(pureFifth().value() == Approx(701.955001).margin(5e-7));
}

TEST_CASE("a tempering is read as it is written", "[unit]") {
    for (const char* text : {"0",
                             "-1/4S",
                             "-1P+11/4S",
                             "+3/8P",
                             "392/393",
                             "-1/6P+1/6S",
                             "-5.38c",
                             "-1/4S+2c+80/81"}) {
        const auto tempering = parseTempering(text);
        REQUIRE(tempering.hasValue());
        CHECK(toText(*tempering) == text);
    }
    CHECK(parseTempering("- 1/4 P")->pythagorean == Fraction(-1, 4));
    CHECK(parseTempering("-1/4S")->cents().value() == Approx(-5.376572).margin(5e-7));
}

TEST_CASE("random temperings survive being written and read", "[unit]") {
    Random random(41);
    for (int i = 0; i < 500; ++i) {
        const auto whole = [&random](int low, int high) {
            return static_cast<std::int64_t>(std::floor(random.uniform(low, high)));
        };
        Tempering tempering;
        tempering.pythagorean = Fraction(whole(-8, 9), whole(4, 25));
        tempering.syntonic = Fraction(whole(-8, 9), whole(4, 25));
        tempering.plain = Cents(std::round(random.uniform(-9000, 9000)) / 1000.0);
        const auto again = parseTempering(toText(tempering));
        REQUIRE(again.hasValue());
        CHECK(again->pythagorean == tempering.pythagorean);
        CHECK(again->syntonic == tempering.syntonic);
        CHECK(again->plain.value() == Approx(tempering.plain.value()).margin(1e-9));
        CHECK(std::abs((tempering + -tempering).cents().value()) < 1e-12);
    }
}

TEST_CASE("wide by what another is narrow is the other way round", "[unit]") {
    const Tempering narrow = *parseTempering("392/393");
    CHECK((-narrow).ratio == Fraction(393, 392));
    CHECK((narrow + -narrow).isPure());
    CHECK((-narrow).cents().value() == Approx(-narrow.cents().value()).margin(1e-12));
}

TEST_CASE("a tempering of long numbers is written so that it can be read", "[unit]") {
    // What closes a circle of eleven just fifths; the sum of its parts by their logarithms.
    Tempering closing;
    closing.pythagorean = Fraction(-1);
    closing.ratio = Fraction(23'206'257, 22'937'600);
    const double cents =
        1200.0 * (std::log2(23'206'257.0 / 22'937'600.0) - std::log2(531'441.0 / 524'288.0));
    const auto read = parseTempering(toText(closing));
    REQUIRE(read.hasValue());
    CHECK(read->pythagorean == Fraction(-1));
    CHECK(read->cents().value() == Approx(cents).margin(1e-9));
}

TEST_CASE("what is no tempering is refused with the forms that are", "[unit]") {
    for (const char* text : {"",
                             "x",
                             "-1/0S",
                             "1/4",
                             "5",
                             "-80/81",
                             "1/4Q",
                             "-9P",
                             "nanc",
                             "1e999c",
                             "99999999999999/2S"}) {
        INFO(text);
        const auto tempering = parseTempering(text);
        if (std::string(text) == "1/4") {
            CHECK_FALSE(tempering.hasValue()); // 1:4 is two octaves from a fifth
            continue;
        }
        REQUIRE_FALSE(tempering.hasValue());
        CHECK(tempering.error().text.find("-1/4S") != std::string::npos);
    }
}
