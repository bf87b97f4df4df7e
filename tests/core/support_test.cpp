#include "core/support/excerpt.hpp"
#include "core/support/fixed_vector.hpp"
#include "core/support/median.hpp"
#include "core/support/random.hpp"
#include "core/support/result.hpp"

#include <catch2/catch.hpp>

using namespace quillbench;

TEST_CASE("a full fixed vector refuses another value", "[unit]") {
    FixedVector<int, 2> values;
    CHECK(values.tryPush(1));
    CHECK(values.tryPush(2));
    CHECK_FALSE(values.tryPush(3));
    REQUIRE(values.size() == 2);
    CHECK(values[1] == 2);
}

TEST_CASE("a result carries its value or its error", "[unit]") {
    const Result<int> good = 5;
    const Result<int> bad = failure(ErrorCode::UnreadableInput, "x.wav: empty");
    REQUIRE(good);
    CHECK(*good == 5);
    REQUIRE_FALSE(bad);
    CHECK(bad.error().text == "x.wav: empty");
}

TEST_CASE("random numbers repeat from their seed and have the stated moments", "[unit]") {
    Random a(7);
    Random b(7);
    double sum = 0.0;
    double squares = 0.0;
    constexpr int kDraws = 20000;
    for (int i = 0; i < kDraws; ++i) {
        const double x = a.normal();
        CHECK(x == b.normal());
        sum += x;
        squares += x * x;
    }
    // Standard errors of mean and variance at n = 20000: 0.007 and 0.01; five of each allowed.
    CHECK(sum / kDraws == Approx(0.0).margin(0.035));
    CHECK(squares / kDraws == Approx(1.0).margin(0.05));
}

TEST_CASE("what a complaint quotes fits on one line and is text", "[unit]") {
    CHECK(excerpt("A3") == "A3");
    CHECK(excerpt("").empty());
    CHECK(excerpt("two\nlines\tand\x7f") == "two?lines?and?");
    CHECK(excerpt(std::string("zero\0byte", 9)) == "zero?byte");
    CHECK(excerpt("F\u266F3 \U0001FAB6") == "F\u266F3 \U0001FAB6");
    CHECK(excerpt("Latin-1 \xE9, overlong \xC0\xAF") == "Latin-1 ?, overlong ??");
    CHECK(excerpt(std::string(1U << 20U, 'x')) == std::string(40, 'x') + "...");
    // A character is never cut through.
    CHECK(excerpt("123\u20AC", 5) == "123...");
    CHECK(excerpt("123\u20AC", 6) == "123\u20AC");
}

TEST_CASE("the middle half is averaged, what strays does not count", "[unit]") {
    CHECK(middleMeanOf({7.0}) == Approx(7.0));
    CHECK(middleMeanOf({1.0, 2.0, 3.0, 1000.0}) == Approx(2.5));
    CHECK(middleMeanOf({-1000.0, 1.0, 2.0, 3.0, 4.0, 5.0, 6.0, 1000.0}) == Approx(3.5));
}
