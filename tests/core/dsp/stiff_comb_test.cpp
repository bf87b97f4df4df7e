#include "core/dsp/stiff_comb.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <vector>

using namespace quillbench;

TEST_CASE("partials of a stiff string follow Fletcher's formula", "[dsp]") {
    // [Fletcher1964]: f_n = n·f0·√(1 + B·n²); B = 1e-4, n = 10: √1.01.
    const StiffComb comb{100.0, 1e-4};
    CHECK(comb.partial(10) == Approx(1000.0 * std::sqrt(1.01)));
    CHECK(comb.pitch() == Approx(100.0 * std::sqrt(1.0001)));
}

TEST_CASE("f0 and B come back from their partials, an outlier left aside", "[dsp]") {
    const StiffComb truth{220.0, 4e-5};
    std::vector<MeasuredPartial> partials;
    for (int n = 1; n <= 20; ++n) {
        partials.push_back({static_cast<double>(n), truth.partial(n), 0.05});
    }
    partials[6].hz += 5.0;
    const StiffCombFit fit = fitStiffComb(partials, {220.4, 1e-5}, 3e-5, 0.7);
    CHECK(std::abs(1200.0 * std::log2(fit.comb.pitch() / truth.pitch())) < 0.01);
    CHECK(fit.comb.b == Approx(truth.b).epsilon(0.01));
    CHECK(fit.pitchSd > 0.0);
    CHECK(fit.pitchSd < 0.05);
}

TEST_CASE("one partial alone leaves B at what is known of it", "[dsp]") {
    const std::vector<MeasuredPartial> partials{{1.0, 900.0, 0.1}};
    const StiffCombFit fit = fitStiffComb(partials, {899.0, 2e-4}, 2e-4, 0.5);
    CHECK(fit.comb.b == Approx(2e-4).epsilon(0.02));
    CHECK(fit.comb.pitch() == Approx(900.0).margin(1e-3));
    CHECK(fit.lnBSd == Approx(0.5).epsilon(0.05));
}
