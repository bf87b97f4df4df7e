#include "core/logbook/instant.hpp"

#include <catch2/catch.hpp>

using namespace quillbench;

TEST_CASE("instants are written as the calendar has them", "[unit]") {
    // Seconds and texts as GNU date prints them: date -u -d @SECONDS +%FT%TZ.
    struct Known {
        std::int64_t seconds;
        const char* text;
    };

    const Known known[] = {{0, "1970-01-01T00:00:00.000Z"},
                           {1790000000, "2026-09-21T14:13:20.000Z"},
                           {951782399, "2000-02-28T23:59:59.000Z"},
                           {951825600, "2000-02-29T12:00:00.000Z"},
                           {4107542399, "2100-02-28T23:59:59.000Z"},
                           {4107542400, "2100-03-01T00:00:00.000Z"},
                           {-1, "1969-12-31T23:59:59.000Z"},
                           {-62135596800, "0001-01-01T00:00:00.000Z"},
                           {253402300799, "9999-12-31T23:59:59.000Z"}};
    for (const Known& one : known) {
        CHECK(toText({one.seconds * 1000, 0}) == one.text);
        CHECK(parseUniversalTime(one.text) == one.seconds * 1000);
    }
    CHECK(toText({-1, 0}) == "1969-12-31T23:59:59.999Z");
    CHECK(parseUniversalTime("1969-12-31T23:59:59.999Z") == -1);
}

TEST_CASE("every day of 800 years comes back from its text", "[unit]") {
    constexpr std::int64_t kDay = 86400000;
    for (std::int64_t day = -146097; day < 146097; ++day) {
        const std::int64_t milliseconds = day * kDay + 12345678;
        REQUIRE(parseUniversalTime(toText({milliseconds, 60})) == milliseconds);
    }
}

TEST_CASE("the clock on the wall is shown with its offset", "[unit]") {
    CHECK(wallClockText({1790000000000, 0}) == "2026-09-21 14:13");
    CHECK(wallClockText({1790000000000, 825}) == "2026-09-22 03:58"); // Chatham, in summer
    CHECK(wallClockText({1790000000000, -720}) == "2026-09-21 02:13");
    CHECK(wallClockText({kLatestInstant, kLargestOffset}) == "9999-12-31 23:59");
}

TEST_CASE("texts that are no instant are none", "[unit]") {
    for (const char* text : {"",
                             "2026-09-21",
                             "2026-09-21T14:13:20Z",
                             "2026-09-21T14:13:20.000+01:00",
                             "2026-09-31T14:13:20.000Z",
                             "2026-02-29T14:13:20.000Z",
                             "2026-13-01T14:13:20.000Z",
                             "2026-09-21T24:00:00.000Z",
                             "0000-09-21T14:13:20.000Z",
                             "2026-09-21T14:13:20.000Z ",
                             "2O26-09-21T14:13:20.000Z"}) {
        CHECK_FALSE(parseUniversalTime(text));
    }
}
