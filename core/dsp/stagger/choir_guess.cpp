#include "core/dsp/stagger/choir_guess.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <complex>
#include <numbers>
#include <numeric>

namespace quillbench {

namespace {

constexpr int kPartials = 8;
constexpr double kSure = 6.0; // steepness of the confidence over a difference of shares
constexpr double kMostConfidence = 0.85;

using Amplitudes = std::array<std::complex<double>, kPartials>;

/// Amplitudes of the first partials over `count` samples from `from` on, phases from the origin of time.
Amplitudes amplitudes(std::span<const double> sound,
                      double rateHz,
                      double keyHz,
                      std::ptrdiff_t from,
                      std::ptrdiff_t count) {
    Amplitudes out{};
    for (std::ptrdiff_t i = std::max<std::ptrdiff_t>(from, 0);
         i < std::min(from + count, static_cast<std::ptrdiff_t>(sound.size()));
         ++i) {
        const double place = (static_cast<double>(i - from) + 0.5) / static_cast<double>(count);
        const double window = 1.0 - std::cos(2.0 * std::numbers::pi * place);
        for (int n = 1; n <= kPartials; ++n) {
            const double angle =
                -2.0 * std::numbers::pi * n * keyHz / rateHz * static_cast<double>(i);
            out[static_cast<std::size_t>(n - 1)] +=
                std::polar(window * sound[static_cast<std::size_t>(i)], angle);
        }
    }
    return out;
}

} // namespace

std::vector<double> oddShares(std::span<const double> sound,
                              double rateHz,
                              double keyHz,
                              std::span<const std::size_t> plucks) {
    std::vector<double> shares;
    for (std::size_t p = 0; p < plucks.size(); ++p) {
        const auto at = static_cast<std::ptrdiff_t>(plucks[p]);
        const auto longest = static_cast<std::ptrdiff_t>(3.0 * rateHz / keyHz);
        // Whole periods between the neighbours, two at least where they leave room.
        std::ptrdiff_t after = longest;
        if (p + 1 < plucks.size()) {
            after = std::min(after, static_cast<std::ptrdiff_t>(plucks[p + 1]) - at);
        }
        after = std::max(after, static_cast<std::ptrdiff_t>(1.5 * rateHz / keyHz));
        const Amplitudes before = amplitudes(sound, rateHz, keyHz, at - after, after);
        const Amplitudes behind = amplitudes(sound, rateHz, keyHz, at, after);
        double odd = 0.0;
        double all = 1e-30;
        for (std::size_t n = 0; n < kPartials; ++n) {
            const double added = std::norm(behind[n] - before[n]);
            all += added;
            odd += n % 2 == 0 ? added : 0.0;
        }
        shares.push_back(odd / all);
    }
    return shares;
}

std::vector<GuessedChoir> guessChoirs(std::span<const double> shares,
                                      std::span<const double> ratios) {
    std::vector<std::size_t> order(shares.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        return shares[a] < shares[b];
    });
    std::vector<std::size_t> choirs(ratios.size());
    std::iota(choirs.begin(), choirs.end(), std::size_t{0});
    std::stable_sort(choirs.begin(), choirs.end(), [&](std::size_t a, std::size_t b) {
        return ratios[a] > ratios[b];
    });
    // With fewer plucks than choirs an octave is only supposed where hardly anything odd was added.
    const std::size_t missing = choirs.size() - std::min(choirs.size(), shares.size());
    std::size_t skip = 0;
    while (skip < missing && !order.empty() && ratios[choirs[skip]] > 1.5 &&
           shares[order[0]] > 0.25) {
        ++skip;
    }
    std::vector<GuessedChoir> out(shares.size());
    std::vector<std::size_t> equals; // plucks of choirs that are no octave up, in time
    std::vector<std::size_t> theirs;
    for (std::size_t i = 0; i < order.size(); ++i) {
        const std::size_t choir = choirs[skip + i];
        const double apart =
            order.size() < 2 ? 0.0 : std::abs(shares[order[i]] - shares[order[i == 0 ? 1 : 0]]);
        const double sure = 1.0 / (1.0 + std::exp(-kSure * apart));
        out[order[i]] = {choir, std::min(sure, kMostConfidence)};
        if (ratios[choir] < 1.5) {
            equals.push_back(order[i]);
            theirs.push_back(choir);
        }
    }
    std::sort(equals.begin(), equals.end());
    std::sort(theirs.begin(), theirs.end());
    std::size_t alike = 0;
    for (const double ratio : ratios) {
        alike += ratio < 1.5 ? 1 : 0;
    }
    for (std::size_t i = 0; i < equals.size(); ++i) {
        out[equals[i]].choir = theirs[i];
        out[equals[i]].confidence /= static_cast<double>(std::max<std::size_t>(alike, 1));
    }
    return out;
}

} // namespace quillbench
