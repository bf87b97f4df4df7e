#include "app/paint/scale_map.hpp"

#include <catch2/catch.hpp>

using namespace quillbench;

TEST_CASE("a tenth of a cent and fifty cents both read on the wires", "[ui]") {
    const CentsScale scale(150.0, 140.0);
    CHECK(scale.pixel(Cents(0.0)) == Approx(150.0));
    const double tenth = scale.pixel(Cents(0.0)) - scale.pixel(Cents(0.1));
    CHECK(tenth > 5.0);
    CHECK(scale.pixel(Cents(10.0)) - scale.pixel(Cents(50.0)) > 30.0);
    CHECK(scale.pixel(Cents(50.0)) > 10.0);
    CHECK(scale.pixel(Cents(400.0)) == Approx(10.0));
    CHECK(scale.pixel(Cents(-400.0)) == Approx(290.0));
}

TEST_CASE("a pixel of the wires and its cents are inverse, sharp upwards", "[ui]") {
    const CentsScale scale(150.0, 140.0);
    double before = scale.pixel(Cents(-60.0));
    for (int step = 0; step < 170; ++step) {
        const double cents = -59.0 + 0.7 * step;
        const double pixel = scale.pixel(Cents(cents));
        CHECK(pixel < before);
        CHECK(scale.cents(pixel).value() == Approx(cents).margin(1e-9));
        before = pixel;
    }
}

TEST_CASE("a linear scale runs either way and can be held inside", "[ui]") {
    const LinearScale scale(-60.0, 0.0, 300.0, 100.0);
    CHECK(scale.pixel(-30.0) == Approx(200.0));
    CHECK(scale.value(200.0) == Approx(-30.0));
    CHECK(scale.pixelInside(-90.0) == Approx(300.0));
    CHECK(scale.pixelInside(6.0) == Approx(100.0));
}
