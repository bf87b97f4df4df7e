#include "core/drift/drift_rates.hpp"

#include "core/support/contract.hpp"
#include "core/support/median.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

namespace quillbench {

namespace {

/// A string strays by itself this far between two looks, beside its rate and the readings, cents.
constexpr double kStray = 0.2;
/// Spread of rates within a choir before anything is known, cents a day.
constexpr double kRatePrior = 0.1;
constexpr double kLongestDays = 365.0;
constexpr double kDayStep = 0.25;
/// What the make of a string says of its warmth holds to this part of it.
constexpr double kMakeHolds = 0.33;
/// A movement counts when it is this many standard deviations long.
constexpr double kCounts = 2.5;
constexpr std::size_t kFewest = 3;

struct OwnRate {
    double rate = 0.0;
    double variance = 0.0;
    int sightings = 0;
};

std::map<StringId, OwnRate> ownRates(std::span<const DriftSighting> sightings) {
    std::map<StringId, OwnRate> own;
    for (const DriftSighting& one : sightings) {
        EXPECTS(one.days > 0.0);
        const double weight = 1.0 / (std::pow(one.uncertainty.value(), 2) + kStray * kStray);
        OwnRate& sum = own[one.string];
        sum.rate += weight * one.days * one.moved.value();
        sum.variance += weight * one.days * one.days;
        ++sum.sightings;
    }
    for (auto& [string, sum] : own) {
        sum.rate /= sum.variance;
        sum.variance = 1.0 / sum.variance;
    }
    return own;
}

struct ChoirPrior {
    double mean = 0.0;
    double meanVariance = kRatePrior * kRatePrior;
    double variance = kRatePrior * kRatePrior; ///< of strings about the mean
};

/// Mean and spread of a choir by a few rounds of weighted moments, the spread drawn to its prior as by three strings.
ChoirPrior choirPrior(const std::vector<OwnRate>& strings) {
    ChoirPrior prior;
    if (strings.empty()) {
        return prior;
    }
    for (int round = 0; round < 20; ++round) {
        double weights = 0.0;
        double sum = 0.0;
        for (const OwnRate& one : strings) {
            const double weight = 1.0 / (one.variance + prior.variance);
            weights += weight;
            sum += weight * one.rate;
        }
        prior.mean = sum / weights;
        prior.meanVariance = 1.0 / weights;
        double spread = 3.0 * kRatePrior * kRatePrior;
        for (const OwnRate& one : strings) {
            // What is left of a string's distance when its own noise is taken off.
            const double shrink = prior.variance / (prior.variance + one.variance);
            spread += shrink * shrink * std::pow(one.rate - prior.mean, 2) + shrink * one.variance;
        }
        prior.variance = spread / (static_cast<double>(strings.size()) + 3.0);
    }
    return prior;
}

double upperTail(double x) {
    return 0.5 * std::erfc(x / std::sqrt(2.0));
}

/// Expected share of strings outside the tolerance after some days; `faster` standard deviations of each rate.
double
shareOutside(const DriftRates& rates, double middle, Cents tolerance, double days, double faster) {
    double sum = 0.0;
    for (const DriftRate& one : rates.strings) {
        const double away = std::abs(one.centsPerDay - middle);
        const double size = std::max(0.0, away + faster * one.uncertainty) * days;
        const double spread = std::hypot(one.uncertainty * days, kStray);
        sum += upperTail((tolerance.value() - size) / spread) +
               upperTail((tolerance.value() + size) / spread);
    }
    return sum / static_cast<double>(rates.strings.size());
}

double dayOf(const DriftRates& rates, double middle, Cents tolerance, double share, double faster) {
    const int steps = static_cast<int>(kLongestDays / kDayStep);
    for (int step = 1; step < steps; ++step) {
        const double day = step * kDayStep;
        if (shareOutside(rates, middle, tolerance, day, faster) >= share) {
            return day;
        }
    }
    return kLongestDays;
}

} // namespace

DriftRates driftRates(const Instrument& instrument, std::span<const DriftSighting> sightings) {
    const std::map<StringId, OwnRate> own = ownRates(sightings);
    std::vector<std::vector<OwnRate>> byChoir(instrument.choirs.size());
    for (const auto& [string, one] : own) {
        EXPECTS(string.choir < byChoir.size());
        byChoir[string.choir].push_back(one);
    }
    DriftRates rates;
    std::vector<ChoirPrior> priors;
    for (const auto& strings : byChoir) {
        priors.push_back(choirPrior(strings));
        rates.choirs.push_back({priors.back().mean, std::sqrt(priors.back().meanVariance)});
        rates.scatterOfChoirs.push_back(std::sqrt(priors.back().variance));
    }
    for (const auto& [string, one] : own) {
        const ChoirPrior& prior = priors[string.choir];
        const double precision = 1.0 / one.variance + 1.0 / prior.variance;
        rates.strings.push_back(
            {string,
             (one.rate / one.variance + prior.mean / prior.variance) / precision,
             std::sqrt(1.0 / precision),
             one.sightings});
    }
    return rates;
}

std::optional<RetuneDue> retuneDue(const DriftRates& rates, Cents tolerance, double share) {
    EXPECTS(tolerance > Cents(0.0) && share > 0.0 && share <= 1.0);
    if (rates.strings.empty()) {
        return std::nullopt;
    }
    std::vector<double> all;
    all.reserve(rates.strings.size());
    for (const DriftRate& one : rates.strings) {
        all.push_back(one.centsPerDay);
    }
    const double half = medianOf(std::move(all));
    const RetuneDue due{dayOf(rates, half, tolerance, share, 0.0),
                        dayOf(rates, half, tolerance, share, 1.0),
                        dayOf(rates, half, tolerance, share, -1.0)};
    return due.days < kLongestDays ? std::optional<RetuneDue>(due) : std::nullopt;
}

Habit habitOf(std::span<const Cents> own, Cents deviation) {
    std::vector<double> counted;
    for (const Cents one : own) {
        if (abs(one) > kCounts * deviation) {
            counted.push_back(one.value());
        }
    }
    if (counted.size() < kFewest || 2 * counted.size() < own.size()) {
        return Habit::Steady;
    }
    const auto down = static_cast<std::size_t>(
        std::count_if(counted.begin(), counted.end(), [](double one) { return one < 0.0; }));
    if (4 * down < 3 * counted.size()) {
        return Habit::Wanders;
    }
    bool less = true;
    for (std::size_t i = 1; i < counted.size(); ++i) {
        less = less && std::abs(counted[i]) < 0.85 * std::abs(counted[i - 1]);
    }
    return less ? Habit::WireStretches : Habit::PinSlips;
}

WarmthResponse warmthResponse(double fromMake, std::span<const WarmthSighting> sightings) {
    const double deviation = std::max(kMakeHolds * std::abs(fromMake), 0.2);
    double precision = 1.0 / (deviation * deviation);
    double sum = precision * fromMake;
    for (const WarmthSighting& one : sightings) {
        const double weight = 1.0 / (std::pow(one.uncertainty.value(), 2) + kStray * kStray);
        precision += weight * one.kelvin * one.kelvin;
        sum += weight * one.kelvin * one.moved.value();
    }
    return {sum / precision, std::sqrt(1.0 / precision)};
}

ExpectedMove expectedMove(const WarmthResponse& response,
                          double kelvin,
                          double kelvinUncertainty,
                          const DriftRate& rate,
                          double days) {
    const double warm = response.centsPerKelvin * kelvin;
    const double drift = rate.centsPerDay * days;
    const double deviation = std::sqrt(std::pow(response.uncertainty * kelvin, 2) +
                                       std::pow(response.centsPerKelvin * kelvinUncertainty, 2) +
                                       std::pow(rate.uncertainty * days, 2));
    return {Cents(warm + drift), Cents(deviation)};
}

Chase worthChasing(Cents deviation, Cents uncertainty, const ExpectedMove& until, Cents tolerance) {
    EXPECTS(tolerance > Cents(0.0));
    const double then = std::abs((deviation + until.by).value());
    const double doubt = std::hypot(uncertainty.value(), until.uncertainty.value());
    if (then + doubt <= tolerance.value()) {
        return Chase::LeaveIt;
    }
    return then - doubt > tolerance.value() ? Chase::TuneIt : Chase::HearItLater;
}

} // namespace quillbench
