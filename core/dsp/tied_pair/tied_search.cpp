#include "core/dsp/tied_pair/tied_search.hpp"

#include "core/dsp/constants.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <complex>
#include <cstddef>
#include <limits>

namespace quillbench {

namespace {

constexpr AmplitudeTie kUntied{50.0, 50.0};
constexpr double kGridHz = 0.12;
/// Two plucks nearer than this are heard as one.
constexpr double kUnheard = 0.03;
constexpr double kPeriods = 0.6; ///< of the lower string, that a pluck's instant may be off
constexpr std::size_t kShifts = 2;

void sortByCost(std::vector<TiedPlace>& places) {
    std::sort(places.begin(), places.end(), [](const TiedPlace& a, const TiedPlace& b) {
        return a.cost < b.cost;
    });
}

/// A partial of the lower string in the pair and alone: both polarisations together.
struct Amplitude {
    double hz = 0.0;
    std::complex<double> pair;
    std::complex<double> alone;
    double variance = 0.0;
};

/// Robust cost of a shift in time at the gain that suits it best; cost, shift, ln gain.
std::array<double, 3> costOfShift(const std::vector<Amplitude>& partials, double shift) {
    constexpr std::size_t kGains = 9;
    constexpr double kGainStep = 0.15;
    std::array<double, kGains> costs{};
    const auto lnGain = [](std::size_t g) { return kGainStep * (static_cast<double>(g) - 4.0); };
    for (const Amplitude& partial : partials) {
        const std::complex<double> turned =
            partial.alone * std::polar(1.0, -kTwoPi * partial.hz * shift);
        for (std::size_t g = 0; g < kGains; ++g) {
            const double off = std::norm(partial.pair - std::exp(lnGain(g)) * turned);
            costs[g] += std::log1p(off / partial.variance / 2.0);
        }
    }
    const auto* const lowest = std::min_element(costs.begin(), costs.end());
    return {*lowest, shift, lnGain(static_cast<std::size_t>(lowest - costs.begin()))};
}

} // namespace

TiedSearch::TiedSearch(TiedFit& fit, const TiedQuestion& question, const LoneRecord& lone)
    : fit_(fit),
      question_(question),
      upper_(fit.first(1)),
      start_(fit.prior.mean) {
    start_.head(lone.found.size()) = lone.found;
    start_.segment(fit.first(2), lone.found.size()) = lone.found;
    f0_ = lone.string.reference * std::exp(lone.found[kTiedPlace] * kCent);
    const double n = question.lowerPartial;
    met_ = n * f0_ * std::sqrt(1.0 + std::exp(lone.found[kTiedStiffness]) * n * n);
}

/// Hz from where the upper string's meeting partial was heard; the mirror of the beat too.
std::vector<double> TiedSearch::grid() const {
    std::vector<double> values;
    const double reach = std::max(1.2, met_ * 2.5 * kCent);
    const int steps = static_cast<int>(2.0 * reach / kGridHz);
    values.reserve(static_cast<std::size_t>(steps) + 8);
    for (int i = 0; i <= steps; ++i) {
        values.push_back(-reach + i * kGridHz);
    }
    const double mirror = -2.0 * question_.beat;
    for (int i = -3; i <= 3; ++i) {
        values.push_back(mirror + i * kGridHz);
    }
    std::sort(values.begin(), values.end());
    return values;
}

std::vector<TiedPlace> TiedSearch::coarse() {
    const std::vector<double> values = grid();
    const bool unison = question_.lowerPartial == question_.upperPartial;
    const double m = question_.upperPartial;
    const double stiffness = std::exp(start_[upper_ + kTiedStiffness]);
    std::vector<TiedPlace> places;
    fit_.settleNoise(start_, 3);
    for (const double ln :
         unison ? std::vector<double>{0.0} : std::vector<double>{-0.4, 0.0, 0.4}) {
        std::vector<TiedPlace> row;
        for (const double hz : values) {
            TiedPlace place;
            place.at = start_;
            place.at[upper_ + kTiedStiffness] += ln;
            place.at[upper_ + kTiedPlace] =
                hz / (kCent * met_) -
                0.5 / kCent *
                    (std::log1p(stiffness * std::exp(ln) * m * m) - std::log1p(stiffness * m * m));
            place.cost = fit_.costAt(place.at);
            row.push_back(std::move(place));
        }
        for (std::size_t i = 0; i < row.size(); ++i) {
            if ((i == 0 || row[i].cost <= row[i - 1].cost) &&
                (i + 1 == row.size() || row[i].cost <= row[i + 1].cost)) {
                places.push_back(row[i]);
            }
        }
    }
    sortByCost(places);
    places.resize(std::min<std::size_t>(places.size(), 4));
    for (TiedPlace& place : places) {
        place.cost = fit_.refine(place.at, 5);
    }
    sortByCost(places);
    return places;
}

/// Time shifts of the lower string against its record, and the logarithm of the gain there: both from amplitudes that
/// are not tied, cheapest first.
std::vector<std::pair<double, double>> TiedSearch::shifts(const Eigen::VectorXd& at) {
    std::vector<Amplitude> rows;
    double highest = f0_;
    for (std::size_t b = 0; b < fit_.bands.size(); ++b) {
        const TiedBand& band = fit_.bands[b];
        if (!band.tied) {
            continue;
        }
        const Eigen::VectorXcd a = fit_.amplitudes(at, b);
        const Eigen::MatrixXcd c = 2.0 * fit_.amplitudeCovariance(at, b);
        const Eigen::Index i = band.lowerLine;
        const Eigen::Index k = 2 * static_cast<Eigen::Index>(band.segments[0].parts.size());
        const double loud = 0.35 * std::max(std::abs(a[k]), std::abs(a[k + 1]));
        const double variance =
            c.block<2, 2>(i, i).sum().real() + c.block<2, 2>(k, k).sum().real() + loud * loud;
        rows.push_back(
            {band.segments[0].centre, a[i] + a[i + 1], a[k] + a[k + 1], variance + 1e-24});
        highest = std::max(highest, band.segments[0].centre);
    }
    const double step = 0.04 / highest;
    const double reach = kPeriods / f0_;
    const double apart = question_.laterPluck.count() - question_.firstPluck.count();
    std::vector<double> tried;
    const double earliest = -apart - kUnheard - reach;
    const auto steps = static_cast<int>((reach - earliest) / step);
    for (int i = 0; i <= steps; ++i) {
        const double shift = earliest + i * step;
        if (shift <= -apart + reach || shift >= -kUnheard - reach) {
            tried.push_back(shift);
        }
    }
    std::vector<std::array<double, 3>> costs; // cost, shift, gain
    costs.reserve(tried.size());
    for (const double shift : tried) {
        costs.push_back(costOfShift(rows, shift));
    }
    std::vector<std::array<double, 3>> lowest;
    for (std::size_t i = 1; i + 1 < costs.size(); ++i) {
        if (costs[i][0] <= costs[i - 1][0] && costs[i][0] <= costs[i + 1][0]) {
            lowest.push_back(costs[i]);
        }
    }
    std::sort(lowest.begin(), lowest.end());
    std::vector<std::pair<double, double>> result;
    for (std::size_t i = 0; i < std::min<std::size_t>(lowest.size(), kShifts); ++i) {
        result.emplace_back(lowest[i][1], lowest[i][2]);
    }
    return result;
}

std::vector<TiedPlace> TiedSearch::shifted(std::vector<TiedPlace> places) {
    std::vector<TiedPlace> tied;
    places.resize(std::min<std::size_t>(places.size(), 2));
    for (const TiedPlace& place : places) {
        fit_.model.tie = kUntied;
        fit_.settleNoise(place.at, 3);
        const auto found = shifts(place.at);
        for (const auto& [shift, gain] : found) {
            TiedPlace there = place;
            there.pluck = question_.laterPluck.count() + shift;
            there.at[fit_.model.gainIndex()] = gain;
            pluckedAt(there.pluck);
            fit_.model.tie = AmplitudeTie();
            fit_.settleNoise(there.at, 3);
            there.cost = fit_.refine(there.at, 4);
            tied.push_back(std::move(there));
        }
        pluckedAt(question_.laterPluck.count());
    }
    fit_.model.tie = AmplitudeTie();
    sortByCost(tied);
    if (tied.empty()) {
        return tied;
    }
    const double pluck = tied.front().pluck;
    pluckedAt(pluck);
    std::erase_if(tied, [pluck](const TiedPlace& p) {
        return std::abs(p.pluck - pluck) >= 0.5 * TiedModel::kShiftUnit;
    });
    return tied;
}

/// The lower string was plucked then; the upper one at the other instant, where there are two.
void TiedSearch::pluckedAt(double pluck) {
    const double first = question_.firstPluck.count();
    const double later = question_.laterPluck.count();
    const bool upperFirst = later - pluck < pluck - first;
    fit_.model.strings[0].pluck = pluck;
    fit_.model.strings[1].pluck = upperFirst ? first : later;
}

std::vector<TiedPlace> TiedSearch::distinct(std::vector<TiedPlace> places) const {
    constexpr double kSameHz = 0.05;
    std::vector<TiedPlace> kept;
    for (TiedPlace& place : places) {
        const bool there = std::any_of(kept.begin(), kept.end(), [&](const TiedPlace& other) {
            return std::abs(other.at[upper_] - place.at[upper_]) * met_ * kCent <= kSameHz;
        });
        if (!there && kept.size() < 3) {
            kept.push_back(std::move(place));
        }
    }
    return kept;
}

/// Either sign of the split of the upper string's meeting partial.
std::vector<TiedPlace> TiedSearch::split(const std::vector<TiedPlace>& places) {
    constexpr double kSplitStart = 1.3;
    const Eigen::Index index = upper_ + TiedString::local(question_.upperPartial - 1) + kTiedSplit;
    std::vector<TiedPlace> result;
    for (const TiedPlace& place : places) {
        TiedPlace asItIs = place;
        asItIs.cost = fit_.refine(asItIs.at, 3);
        result.push_back(std::move(asItIs));
        for (const double cents : {-kSplitStart, kSplitStart}) {
            const double now = place.at[index];
            if (cents * now > 0.0 && std::abs(now) > 0.4) {
                continue; // it has that sign already
            }
            TiedPlace there = place;
            there.at[index] = cents;
            there.cost = fit_.refine(there.at, 7);
            result.push_back(std::move(there));
        }
    }
    sortByCost(result);
    result.resize(std::min<std::size_t>(result.size(), 3));
    return result;
}

std::vector<TiedPlace> TiedSearch::run() {
    fit_.model.tie = kUntied;
    std::vector<TiedPlace> places = split(distinct(shifted(coarse())));
    for (TiedPlace& place : places) {
        fit_.reshape(place.at);
        place.cost = fit_.refine(place.at, 14);
    }
    sortByCost(places);
    if (!places.empty()) {
        fit_.reshape(places.front().at);
    }
    for (TiedPlace& place : places) {
        place.cost = fit_.refine(place.at, 6);
    }
    return places;
}

} // namespace quillbench
