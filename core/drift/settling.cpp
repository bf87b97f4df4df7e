#include "core/drift/settling.hpp"

#include "core/support/contract.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace quillbench {

namespace {

// The prior. Common practice, no source: a new string sinks by some 5 to 50 cents in its first day, by as much again
// until its second week, and is then left alone.
constexpr double kUsualFold = 5.0;  // cents for each e-fold of age
constexpr double kFoldSpread = 0.8; // of its logarithm, from instrument to instrument
constexpr double kUsualTau = 0.1;   // days
constexpr double kTauSpread = 1.1;  // of its logarithm
constexpr std::array kAmongStrings{0.2, 0.35, 0.6}; // of the logarithm of A; each as likely
constexpr double kStrayCents = 0.3; // a string strays by itself so far beside any law
constexpr double kWildPart = 0.05;  // a pin that slipped, a wrong date
constexpr double kWildCents = 15.0;

constexpr double kLowestTau = 0.005;
constexpr double kHighestTau = 3.0;
constexpr std::size_t kTaus = 26;
constexpr double kLowestFold = 0.1;
constexpr double kHighestFold = 80.0;
constexpr std::size_t kFolds = 180;
constexpr std::size_t kMeans = 34;
constexpr double kTail = 0.05;
constexpr double kFortnight = 14.0;
constexpr std::size_t kMostSteps = 5;
constexpr double kSoonestSettlingStep = 1.0 / 24.0; // nobody stands beside it

template <std::size_t count>
std::array<double, count> logGrid(double low, double high) {
    std::array<double, count> grid{};
    for (std::size_t i = 0; i < count; ++i) {
        grid[i] = low * std::pow(high / low, static_cast<double>(i) / (count - 1));
    }
    return grid;
}

double bell(double value, double deviation) {
    const double z = value / deviation;
    return std::exp(-0.5 * z * z) / deviation;
}

double folds(double tau, double from, double to) {
    return std::log((tau + to) / (tau + from));
}

double likelihood(const SettlingHistory& history, double tau, double fold) {
    double product = 1.0;
    for (const SettlingSighting& one : history) {
        EXPECTS(one.from >= 0.0 && one.to > one.from && one.uncertainty.value() > 0.0);
        const double miss = one.moved.value() + fold * folds(tau, one.from, one.to);
        const double deviation = std::hypot(one.uncertainty.value(), kStrayCents);
        product *= (1.0 - kWildPart) * bell(miss, deviation) +
                   kWildPart * bell(miss, std::hypot(deviation, kWildCents));
    }
    return product;
}

using TauGrid = std::array<double, kTaus>;
using FoldGrid = std::array<double, kFolds>;

/// How a string's A lies about its instrument's: one row of weights over the grid for each mean, of unit sum.
std::vector<FoldGrid>
spreads(const std::array<double, kMeans>& means, const FoldGrid& grid, double among) {
    std::vector<FoldGrid> rows(kMeans);
    for (std::size_t m = 0; m < kMeans; ++m) {
        double whole = 0.0;
        for (std::size_t f = 0; f < kFolds; ++f) {
            rows[m][f] = bell(std::log(grid[f] / means[m]), among);
            whole += rows[m][f];
        }
        for (double& weight : rows[m]) {
            weight /= whole;
        }
    }
    return rows;
}

/// Logarithm of what all strings say to one τ, mean and spread.
double evidence(const std::vector<FoldGrid>& strings, const FoldGrid& spread) {
    double sum = 0.0;
    for (const FoldGrid& string : strings) {
        double mean = 0.0;
        for (std::size_t f = 0; f < kFolds; ++f) {
            mean += spread[f] * string[f];
        }
        sum += std::log(mean + 1e-300);
    }
    return sum;
}

} // namespace

SettlingLaw::SettlingLaw() : SettlingLaw(learned({})) {
}

SettlingLaw SettlingLaw::learned(std::span<const SettlingHistory> strings) {
    const TauGrid taus = logGrid<kTaus>(kLowestTau, kHighestTau);
    const FoldGrid grid = logGrid<kFolds>(kLowestFold, kHighestFold);
    const auto means = logGrid<kMeans>(kUsualFold / 12.0, kUsualFold * 12.0);

    // Each τ, mean and spread, with the logarithm of its posterior.
    struct Hyper {
        std::size_t tau = 0;
        const FoldGrid* spread = nullptr;
        double score = 0.0;
    };

    std::vector<std::vector<FoldGrid>> rows;
    rows.reserve(kAmongStrings.size());
    for (const double among : kAmongStrings) {
        rows.push_back(spreads(means, grid, among));
    }
    std::vector<Hyper> all;
    all.reserve(kTaus * kMeans * kAmongStrings.size());
    double best = -1e300;
    for (std::size_t t = 0; t < kTaus; ++t) {
        std::vector<FoldGrid> seen(strings.size());
        for (std::size_t i = 0; i < strings.size(); ++i) {
            for (std::size_t f = 0; f < kFolds; ++f) {
                seen[i][f] = likelihood(strings[i], taus[t], grid[f]);
            }
        }
        for (const std::vector<FoldGrid>& row : rows) {
            for (std::size_t m = 0; m < kMeans; ++m) {
                const double score = std::log(bell(std::log(taus[t] / kUsualTau), kTauSpread)) +
                                     std::log(bell(std::log(means[m] / kUsualFold), kFoldSpread)) +
                                     evidence(seen, row[m]);
                all.push_back({t, &row[m], score});
                best = std::max(best, score);
            }
        }
    }
    std::array<FoldGrid, kTaus> weights{};
    for (const Hyper& one : all) {
        const double weight = std::exp(one.score - best);
        for (std::size_t f = 0; f < kFolds; ++f) {
            weights[one.tau][f] += weight * (*one.spread)[f];
        }
    }
    std::vector<Cell> cells;
    cells.reserve(kTaus * kFolds);
    for (std::size_t t = 0; t < kTaus; ++t) {
        for (std::size_t f = 0; f < kFolds; ++f) {
            cells.push_back({taus[t], grid[f], weights[t][f]});
        }
    }
    SettlingLaw law(std::move(cells));
    for (const SettlingHistory& one : strings) {
        law.strings_ += one.empty() ? 0U : 1U;
        law.sightings_ += one.size();
    }
    return law;
}

SettlingLaw SettlingLaw::of(const SettlingHistory& own) const {
    SettlingLaw law = *this;
    for (Cell& cell : law.cells_) {
        cell.weight *= likelihood(own, cell.tau, cell.fold);
    }
    law.strings_ += own.empty() ? 0U : 1U;
    law.sightings_ += own.size();
    return law;
}

template <typename Quantity>
SettlingRange SettlingLaw::rangeOf(Quantity quantity) const {
    std::vector<std::pair<double, double>> values; // value, weight
    values.reserve(cells_.size());
    double whole = 0.0;
    for (const Cell& cell : cells_) {
        values.emplace_back(quantity(cell), cell.weight);
        whole += cell.weight;
    }
    std::sort(values.begin(), values.end());
    // Each cell stands for its neighbourhood: between the middles of two cells' weights their values are mixed.
    const auto at = [&](double part) {
        double before = 0.0;
        double lastMiddle = 0.0;
        double lastValue = values.front().first;
        for (const auto& [value, weight] : values) {
            const double middle = before + 0.5 * weight;
            if (middle >= part * whole) {
                const double span = middle - lastMiddle;
                const double mix = span > 0.0 ? (part * whole - lastMiddle) / span : 1.0;
                return lastValue + mix * (value - lastValue);
            }
            before += weight;
            lastMiddle = middle;
            lastValue = value;
        }
        return values.back().first;
    };
    return {at(0.5), at(kTail), at(1.0 - kTail)};
}

SettlingRange SettlingLaw::sinks(double from, double to) const {
    EXPECTS(from >= 0.0 && to >= from);
    return rangeOf([&](const Cell& cell) { return cell.fold * folds(cell.tau, from, to); });
}

SettlingRange SettlingLaw::sunkBy(double from, Cents cents) const {
    EXPECTS(from >= 0.0 && cents > Cents(0.0));
    return rangeOf([&](const Cell& cell) {
        const double later = (cell.tau + from) * std::expm1(cents.value() / cell.fold);
        return from + std::min(later, kLongestSettling);
    });
}

SettlingRange SettlingLaw::calmFrom(Cents cents, double days) const {
    EXPECTS(cents > Cents(0.0) && days > 0.0);
    return rangeOf([&](const Cell& cell) {
        const double age = days / std::expm1(cents.value() / cell.fold) - cell.tau;
        return std::clamp(age, 0.0, kLongestSettling);
    });
}

SettlingPlan planSettling(const SettlingLaw& law, double lastSet, Cents allowed, Cents calm) {
    SettlingPlan plan;
    plan.calm = law.calmFrom(calm, kFortnight);
    double age = lastSet;
    while (plan.steps.size() < kMostSteps && age < plan.calm.middle) {
        SettlingStep step;
        step.age = law.sunkBy(age, allowed);
        const double soonest = age + kSoonestSettlingStep;
        step.age = {std::max(step.age.middle, soonest),
                    std::max(step.age.low, soonest),
                    std::max(step.age.high, soonest)};
        if (step.age.middle > plan.calm.middle) {
            break;
        }
        step.sunk = law.sinks(age, step.age.middle);
        age = step.age.middle;
        plan.steps.push_back(step);
    }
    return plan;
}

} // namespace quillbench
