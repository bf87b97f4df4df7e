#include "core/analysis/direction_by_movement.hpp"
#include "core/support/random.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace quillbench;

TEST_CASE("one pluck says nothing of the direction", "[beats]") {
    DirectionByMovement test;
    CHECK(test.wide() == Approx(0.5));
    test.pluck(1.0, 0.02, 415.0, 0.05);
    CHECK(test.wide() == Approx(0.5));
    CHECK_FALSE(test.decided());
}

TEST_CASE("sharper and faster is wide, sharper and slower was narrow", "[beats]") {
    DirectionByMovement wide;
    wide.pluck(1.0, 0.02, 415.50, 0.05);
    wide.pluck(1.8, 0.02, 415.90, 0.05);
    CHECK(wide.wide() > 0.9);
    DirectionByMovement narrow;
    narrow.pluck(1.8, 0.02, 414.10, 0.05);
    narrow.pluck(1.0, 0.02, 414.50, 0.05);
    CHECK(narrow.wide() < 0.1);
}

TEST_CASE("plucked again without a turn of the pin the direction stays unknown", "[beats]") {
    DirectionByMovement test;
    for (int i = 0; i < 10; ++i) {
        test.pluck(1.2, 0.02, 415.6 + (i % 2 == 0 ? 0.03 : -0.03), 0.06);
    }
    CHECK_FALSE(test.decided());
}

TEST_CASE("a beat that went through stillness has changed sides", "[beats]") {
    DirectionByMovement test;
    test.pluck(1.6, 0.02, 414.2, 0.05);
    test.pluck(0.8, 0.02, 414.6, 0.05);
    REQUIRE(test.wide() < 0.1);
    test.pluck(0.5, 0.02, 415.25, 0.05);
    CHECK(test.wide() > 0.9);
}

TEST_CASE("the test over plucks is seldom wrong", "[beats]") {
    Random random(5);
    int decided = 0;
    int wrong = 0;
    for (int trial = 0; trial < 400; ++trial) {
        DirectionByMovement test;
        double beat = random.uniform(-3.0, 3.0);
        for (int pluck = 0; pluck < 4; ++pluck) {
            test.pluck(std::abs(beat + 0.03 * random.normal()),
                       0.03,
                       415.0 + 0.5 * beat + 0.08 * random.normal(),
                       0.08);
            if (pluck < 3) {
                beat += random.uniform(-0.8, 0.8);
            }
        }
        decided += test.decided() ? 1 : 0;
        wrong += test.decided() && (test.wide() > 0.5) != (beat > 0.0) ? 1 : 0;
    }
    CHECK(decided > 180);
    CHECK(wrong <= decided / 20);
}
