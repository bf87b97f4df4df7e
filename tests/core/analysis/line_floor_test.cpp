#include "core/analysis/line_floor.hpp"
#include "core/support/random.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <vector>

using namespace quillbench;

TEST_CASE("the floor of noise is its mean", "[analysis]") {
    Random random(1);
    std::vector<double> power(8000);
    for (double& bin : power) {
        bin = -3.0 * std::log(1.0 - random.uniform()); // exponential, mean 3
    }
    std::vector<double> floor(power.size());
    std::vector<double> scratch(power.size());
    findLineFloor(power, 1.0, floor, scratch);
    double worst = 0.0;
    for (std::size_t k = 200; k < power.size(); ++k) {
        worst = std::max(worst, std::abs(10.0 * std::log10(floor[k] / 3.0)));
    }
    CHECK(worst < 2.5);
    SECTION("and lines in a third of the bins hardly lift it") {
        for (std::size_t k = 0; k < power.size(); k += 3) {
            power[k] = 1e6;
        }
        findLineFloor(power, 1.0, floor, scratch);
        for (std::size_t k = 200; k < power.size(); k += 50) {
            CHECK(10.0 * std::log10(floor[k] / 3.0) < 4.5);
        }
    }
}

TEST_CASE("the floor of nothing is nothing", "[analysis]") {
    const std::vector<double> power(100, 0.0);
    std::vector<double> floor(power.size(), 1.0);
    std::vector<double> scratch(power.size());
    findLineFloor(power, 5.0, floor, scratch);
    for (const double bin : floor) {
        CHECK(bin == 0.0);
    }
}
