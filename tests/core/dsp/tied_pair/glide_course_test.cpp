// The course of a glide against its closed form.

#include "core/dsp/tied_pair/tied_string.hpp"

#include <catch2/catch.hpp>

#include <array>
#include <cmath>

namespace quillbench {

TEST_CASE("the glide's phase is the integral of the energy's course") {
    const std::array energies{3.0, 1.0};
    const std::array decays{0.8, 2.5};
    const GlideCourse course(energies, decays);
    const auto integral = [](double t) {
        return 0.75 * (1.0 - std::exp(-1.6 * t)) / 1.6 + 0.25 * (1.0 - std::exp(-5.0 * t)) / 5.0;
    };
    for (const double t : {0.0, 0.013, 0.5, 2.4, 6.0}) {
        for (const double stretch : {-0.4, 0.0, 0.5}) {
            const double faster = std::exp(stretch);
            const auto phase = course.at(t, stretch);
            CAPTURE(t, stretch);
            CHECK(phase.value == Approx(integral(t * faster) / faster).margin(2e-6));
            const double step = 1e-4;
            const double slope =
                (course.at(t, stretch + step).value - course.at(t, stretch - step).value) /
                (2.0 * step);
            CHECK(phase.byStretch == Approx(slope).margin(2e-4));
        }
    }
    CHECK(course.at(-1.0, 0.0).value == Approx(0.0).margin(1e-12));
}

} // namespace quillbench
