#include "core/practise/tapping.hpp"

#include "core/support/contract.hpp"
#include "core/support/median.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

namespace quillbench {

namespace {

constexpr std::size_t kFewestTaps = 3;
constexpr double kOneTap = 0.4;          // of the usual distance: nearer ones are one tap
constexpr double kScatterBefore = 0.040; // s
constexpr double kWeightBefore = 4.0;    // taps
constexpr double kRightWithin = 0.10;    // of the rate
constexpr double kVague = 0.15;          // of the rate: a count no better known is no count
constexpr int kHighestMultiple = 4;

std::vector<double> distancesOf(const std::vector<double>& at) {
    std::vector<double> distances;
    distances.reserve(at.size());
    for (std::size_t i = 1; i < at.size(); ++i) {
        distances.push_back(at[i] - at[i - 1]);
    }
    return distances;
}

/// Taps that follow the one before at once are left out.
std::vector<double> withoutBounces(std::span<const Seconds> instants) {
    std::vector<double> at;
    at.reserve(instants.size());
    for (const Seconds instant : instants) {
        at.push_back(instant.count());
    }
    const double usual = medianOf(distancesOf(at));
    std::vector<double> kept{at.front()};
    for (const double instant : at) {
        if (instant - kept.back() > kOneTap * usual) {
            kept.push_back(instant);
        }
    }
    return kept;
}

} // namespace

std::optional<TappedRate> rateOfTaps(std::span<const Seconds> instants, int beatsPerTap) {
    EXPECTS(beatsPerTap >= 1 && beatsPerTap <= 8);
    EXPECTS(std::is_sorted(instants.begin(), instants.end()));
    if (instants.size() < kFewestTaps) {
        return std::nullopt;
    }
    const std::vector<double> at = withoutBounces(instants);
    if (at.size() < kFewestTaps) {
        return std::nullopt;
    }
    const double usual = medianOf(distancesOf(at));
    std::vector<double> number{0.0};
    for (std::size_t i = 1; i < at.size(); ++i) {
        number.push_back(number.back() + std::max(1.0, std::round((at[i] - at[i - 1]) / usual)));
    }
    const auto n = static_cast<double>(at.size());
    double meanNumber = 0.0;
    double meanAt = 0.0;
    for (std::size_t i = 0; i < at.size(); ++i) {
        meanNumber += number[i] / n;
        meanAt += at[i] / n;
    }
    double spread = 0.0;
    double together = 0.0;
    for (std::size_t i = 0; i < at.size(); ++i) {
        spread += (number[i] - meanNumber) * (number[i] - meanNumber);
        together += (number[i] - meanNumber) * (at[i] - meanAt);
    }
    const double period = together / spread;
    double left = kWeightBefore * kScatterBefore * kScatterBefore;
    for (std::size_t i = 0; i < at.size(); ++i) {
        const double off = at[i] - meanAt - period * (number[i] - meanNumber);
        left += off * off;
    }
    const double scatter = std::sqrt(left / (kWeightBefore + n - 2.0));
    TappedRate rate;
    rate.perSecond = beatsPerTap / period;
    rate.uncertainty = rate.perSecond * scatter / std::sqrt(spread) / period;
    rate.taps = static_cast<int>(at.size());
    rate.missed = static_cast<int>(std::lround(number.back())) + 1 - rate.taps;
    return rate;
}

CountScore scoreCount(const TappedRate& tapped, BeatRate measured, double measuredUncertainty) {
    const double rate = std::abs(measured.perSecond());
    EXPECTS(rate > 0.0 && measuredUncertainty >= 0.0);
    CountScore score;
    score.error = tapped.perSecond - rate;
    score.errorUncertainty = std::hypot(tapped.uncertainty, measuredUncertainty);
    if (tapped.uncertainty > kVague * tapped.perSecond) {
        return score;
    }
    const auto fits = [&](double times) {
        return std::abs(tapped.perSecond - times * rate) <=
               std::max(kRightWithin * times * rate,
                        2.0 * std::hypot(tapped.uncertainty, times * measuredUncertainty));
    };
    if (fits(1.0)) {
        score.verdict = CountVerdict::Right;
        return score;
    }
    for (int times = 2; times <= kHighestMultiple; ++times) {
        if (fits(times)) {
            score.verdict = CountVerdict::OtherPartials;
            score.multiple = times;
            return score;
        }
    }
    score.verdict = CountVerdict::Wrong;
    return score;
}

} // namespace quillbench
