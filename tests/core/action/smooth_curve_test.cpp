#include "core/action/smooth_curve.hpp"
#include "core/support/random.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <vector>

using namespace quillbench;

namespace {

std::vector<double> keys(std::size_t count) {
    std::vector<double> x(count);
    for (std::size_t i = 0; i < count; ++i) {
        x[i] = static_cast<double>(i);
    }
    return x;
}

} // namespace

TEST_CASE("a straight line is its own curve", "[action]") {
    const std::vector<double> x = keys(31);
    std::vector<double> y;
    y.reserve(x.size());
    for (const double at : x) {
        y.push_back(3.0 - 0.2 * at);
    }
    const SmoothCurve curve = smoothCurve(x, y);
    for (std::size_t i = 0; i < x.size(); ++i) {
        CHECK(curve.fitted[i] == Approx(y[i]).margin(1e-9));
    }
    CHECK(curve.scale < 1e-9);
}

TEST_CASE("neighbouring bad keys do not pull the curve to themselves", "[action]") {
    const auto seed = GENERATE(range(1U, 11U));
    Random random(seed);
    const std::vector<double> x = keys(61);
    std::vector<double> y;
    y.reserve(x.size());
    for (const double at : x) {
        y.push_back(-30.0 + 4.0 * std::sin(at / 12.0) + 0.8 * random.normal());
    }
    y[30] -= 9.0;
    y[31] -= 9.0;
    const SmoothCurve curve = smoothCurve(x, y);
    CHECK(std::abs(curve.fitted[30] - (-30.0 + 4.0 * std::sin(2.5))) < 1.5);
    CHECK(std::abs(curve.fitted[31] - (-30.0 + 4.0 * std::sin(31.0 / 12.0))) < 1.5);
    CHECK(curve.scale > 0.4);
    CHECK(curve.scale < 1.3);
}

TEST_CASE("one key is its own curve", "[action]") {
    const std::vector<double> one{4.0};
    const std::vector<double> value{-20.0};
    CHECK(smoothCurve(one, value).fitted[0] == Approx(-20.0));
}

// Source: table of the standard normal distribution (value from memory): 0.9772 at 2, 0.8413 at 1.
TEST_CASE("the normal distribution is that of the tables", "[action]") {
    CHECK(normalBelow(0.0) == Approx(0.5));
    CHECK(normalBelow(1.0) == Approx(0.8413).margin(5e-5));
    CHECK(normalBelow(-2.0) == Approx(1.0 - 0.9772).margin(5e-5));
}
