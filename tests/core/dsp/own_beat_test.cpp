#include "core/dsp/own_beat.hpp"
#include "core/support/random.hpp"

#include <catch2/catch.hpp>

#include <array>
#include <cmath>
#include <complex>
#include <numbers>

using namespace quillbench;

namespace {

/// Eight partials of 220 Hz over 2.4 s, each of two lines `split` cents apart; `alike`: the same split for all.
std::array<PhaseTrack, 8> tracksOf(double split, double second, bool alike) {
    Random random(11);
    std::array<PhaseTrack, 8> tracks;
    for (int n = 1; n <= 8; ++n) {
        PhaseTrack& track = tracks[static_cast<std::size_t>(n - 1)];
        track.n = n;
        track.referenceHz = 220.0 * n;
        const double own = alike ? split : split * random.uniform(0.2, 1.8);
        const double beat = 220.0 * n * own * std::numbers::ln2 / 1200.0;
        const double start = random.uniform(0.0, 6.0);
        for (int k = 0; k < 60; ++k) {
            const double t = 0.05 + 0.04 * k;
            const auto sum = 1.0 + std::polar(second, start + 2.0 * std::numbers::pi * beat * t);
            track.points.tryPush(
                {t,
                 0.0,
                 1e-4,
                 std::norm(sum) * std::exp(-2.0 * t) * std::exp(0.02 * random.normal())});
        }
    }
    return tracks;
}

} // namespace

TEST_CASE("a false beat is found with its rate at partial 1", "[dsp]") {
    const double split = GENERATE(3.0, 5.0, 8.0);
    const auto beat = findOwnBeat(tracksOf(split, 0.6, true), 220.0);
    REQUIRE(beat);
    const double expected = 220.0 * split * std::numbers::ln2 / 1200.0;
    CHECK(beat->rate.perSecond() == Approx(expected).epsilon(0.06));
    CHECK(beat->splitCents == Approx(split).epsilon(0.06));
    CHECK(beat->depthNepers > 0.3);
}

TEST_CASE("a plain fall and partials that each beat their own way are no false beat", "[dsp]") {
    CHECK_FALSE(findOwnBeat(tracksOf(4.0, 0.0, true), 220.0));
    CHECK_FALSE(findOwnBeat(tracksOf(4.0, 0.3, false), 220.0));
}
