#include "core/dsp/damper/release_fit.hpp"

#include "core/dsp/damper/comb_power.hpp"
#include "core/dsp/damper/release_instant.hpp"
#include "core/dsp/damper/release_search.hpp"
#include "core/dsp/stagger/resample.hpp"
#include "core/dsp/string_priors.hpp"
#include "core/support/contract.hpp"
#include "core/support/median.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numeric>
#include <optional>

namespace quillbench {

namespace {

using detail::allFalls;
using detail::Fall;
using detail::fromDb;
using detail::integratedDecay;
using detail::kLeastAfter;
using detail::kLeastBefore;
using detail::kReleaseHop;
using detail::quietest;
using detail::ReleaseCandidate;
using detail::ReleaseSearch;
using detail::timeToFall;
using detail::toDb;

constexpr double kRate = 16000.0;
constexpr double kAfterPluck = 0.05; // s left out
// How sure an instant is: set so that 95 % of the releases of the set `damping` lie within two.
constexpr double kWider = 2.0;         // than the envelopes' posterior
constexpr double kLeastU = 0.003;      // s; a damper does not take hold all at once
constexpr double kDoubt = 0.3;         // of how far power alone says otherwise
constexpr double kPowerAloneU = 0.015; // s
constexpr double kLeastDecayU = 0.12;  // relative
constexpr Seconds kWeakFrom{0.025};
constexpr double kNear = 0.04;   // s around a first guess
constexpr double kSlowest = 1.0; // a damper stops at least this much faster than the steepest ring
constexpr double kSteeper = 3.0; // than expected a ring may fall

/// Mean and spread of what the candidates say, each weighted by how well it fits.
struct Consensus {
    double release = 0.0;
    double releaseDeviation = 0.0;
    double lnDecay = 0.0;
    double lnDecayDeviation = 0.0;
    double stop = 0.0;
};

/// Weighs the candidates by their misfit; neighbouring frames overlap, so that few of them are independent.
Consensus agree(const ReleaseSearch& search,
                const std::vector<ReleaseCandidate>& all,
                const CombPower& power) {
    Consensus said;
    double least = std::numeric_limits<double>::infinity();
    for (const ReleaseCandidate& candidate : all) {
        least = std::min(least, candidate.cost);
    }
    const auto frames =
        static_cast<double>(search.compared(static_cast<std::size_t>(all.front().release)));
    const double alike = std::max(1.0, power.frameSeconds / 2.0 / kReleaseHop);
    const double scale = std::max(0.15, least / frames) * alike;
    double whole = 0.0;
    double lnDecay2 = 0.0;
    double release2 = 0.0;
    const std::vector<Fall>& falls = search.falls();
    const double ownDb = search.ownDecay(all.front().release);
    std::vector<double> decays(falls.size(), 0.0);
    std::vector<double> stops(falls.size(), 0.0);
    for (const ReleaseCandidate& candidate : all) {
        const double weight = std::exp(-(candidate.cost - least) / scale);
        if (weight < 1e-4) {
            continue;
        }
        if (stops[candidate.fall] <= 0.0) {
            decays[candidate.fall] = std::log(integratedDecay(falls[candidate.fall], ownDb));
            stops[candidate.fall] = timeToFall(falls[candidate.fall], ownDb, 40.0);
        }
        whole += weight;
        said.release += weight * candidate.release;
        release2 += weight * candidate.release * candidate.release;
        said.lnDecay += weight * decays[candidate.fall];
        lnDecay2 += weight * decays[candidate.fall] * decays[candidate.fall];
        said.stop += weight * stops[candidate.fall];
    }
    said.release /= whole;
    said.lnDecay /= whole;
    said.stop /= whole;
    said.releaseDeviation =
        std::sqrt(std::max(0.0, release2 / whole - said.release * said.release));
    said.lnDecayDeviation =
        std::sqrt(std::max(0.0, lnDecay2 / whole - said.lnDecay * said.lnDecay));
    return said;
}

constexpr double kStandsFor = 0.06; // s before the release that tell each partial's level

/// Level against just before the release, frame by frame: the partials' median, each weighing what its power was then.
/// The blow of jack or key, in some partials as loud as a string that has rung for a while, hardly moves it.
std::vector<double> levelSince(const CombPower& power, double releaseFrame) {
    const auto end = static_cast<std::size_t>(std::max(1.0, releaseFrame));
    const std::size_t from =
        end - std::min(end, static_cast<std::size_t>(kStandsFor / kReleaseHop));
    std::vector<double> before;
    double whole = 0.0;
    for (const std::vector<double>& partial : power.partials) {
        double sum = 0.0;
        for (std::size_t k = from; k < end; ++k) {
            sum += partial[k];
        }
        before.push_back(sum / static_cast<double>(end - from) + 1e-20);
        whole += before.back();
    }
    std::vector<double> level;
    level.reserve(power.db.size());
    std::vector<std::pair<double, double>> each(before.size()); // level, weight
    for (std::size_t k = 0; k < power.db.size(); ++k) {
        for (std::size_t n = 0; n < before.size(); ++n) {
            each[n] = {toDb(power.partials[n][k] / before[n]), before[n]};
        }
        std::sort(each.begin(), each.end());
        double sum = 0.0;
        std::size_t n = 0;
        while (n + 1 < each.size() && sum + each[n].second < 0.5 * whole) {
            sum += each[n].second;
            ++n;
        }
        level.push_back(each[n].first);
    }
    return level;
}

constexpr double kLingersFrom = 0.5; // s after the release: knocks and the fall itself are over
constexpr double kLingersTo = 0.8;
constexpr double kLeastLingering = 0.1;

double medianDb(const std::vector<double>& db, std::size_t from, std::size_t to) {
    return medianOf({db.begin() + static_cast<std::ptrdiff_t>(from),
                     db.begin() + static_cast<std::ptrdiff_t>(to)});
}

/// What ReleaseReading::lingeringDb says, the release being at a frame.
std::optional<double> lingering(const CombPower& power, double releaseFrame) {
    const auto at = static_cast<std::size_t>(std::max(1.0, releaseFrame));
    const auto frames = [](double seconds) {
        return static_cast<std::size_t>(std::lround(seconds / kReleaseHop));
    };
    const std::size_t from = at + frames(kLingersFrom);
    const std::size_t to = std::min(power.sumDb.size(), at + frames(kLingersTo));
    if (to < from + frames(kLeastLingering)) {
        return std::nullopt;
    }
    return medianDb(power.sumDb, from, to) -
           medianDb(power.sumDb, at - std::min(at, frames(kStandsFor)), at);
}

} // namespace

ReleaseReading hearRelease(std::span<const float> samples, SampleRate rate, Hertz string) {
    EXPECTS(string.value() >= 15.0 && string.value() <= 4000.0);
    ReleaseReading reading;
    const std::vector<double> sound = resample(samples, rate.hz(), kRate);
    const StringPriors priors = stringPriors(string.value(), 0.0);
    const CombPower power = combPower(sound, kRate, string.value(), priors.inharmonicity);
    if (power.db.size() < 60) {
        return reading;
    }
    if (power.loudestDb < -110.0) {
        return reading;
    }
    const auto first = power.loudest + static_cast<std::size_t>(kAfterPluck / kReleaseHop);
    if (first + static_cast<std::size_t>((kLeastBefore + kLeastAfter) / kReleaseHop) + 4 >=
        power.db.size()) {
        return reading;
    }
    const double natural = -8.686 * priors.decayRate * kReleaseHop; // decibels a frame
    const double steepest = kSteeper * natural;
    const std::vector<Fall> falls =
        allFalls(power.frameSeconds, kSlowest * -60.0 * kReleaseHop / steepest);
    const ReleaseSearch search(power, power.db, power.floorDb, first, steepest, falls);
    const auto rough = search.find();
    if (!rough) {
        return reading;
    }
    Consensus said = agree(search, search.near(rough->release, kNear), power);
    const double byPower = power.firstSeconds + said.release * kReleaseHop;
    reading.release = Seconds(byPower);
    reading.releaseU = Seconds(std::hypot(said.releaseDeviation * kReleaseHop, kPowerAloneU));
    const auto settled = settleRelease(sound, kRate, string.value(), priors.inharmonicity, byPower);
    const double earliest = power.firstSeconds + static_cast<double>(first) * kReleaseHop;
    if (settled && settled->seconds > earliest) {
        reading.release = Seconds(settled->seconds);
        const double apart = kDoubt * (settled->seconds - byPower);
        reading.releaseU =
            Seconds(std::hypot(std::hypot(kWider * settled->deviation, kLeastU), apart));
        said.release = std::max((settled->seconds - power.firstSeconds) / kReleaseHop,
                                static_cast<double>(first) + kLeastBefore / kReleaseHop + 1.0);
    }
    const std::vector<double> level = levelSince(power, said.release);
    const ReleaseSearch falling(power, level, quietest(level), first, steepest, falls);
    const Consensus fell = agree(falling, falling.near(said.release, 0.003), power);
    reading.found = true;
    reading.decay60 = Seconds(std::exp(fell.lnDecay));
    reading.decay60U = reading.decay60 * std::hypot(fell.lnDecayDeviation, kLeastDecayU);
    reading.stop = Seconds(fell.stop);
    reading.weak = reading.releaseU > kWeakFrom;
    reading.residualDb = falling.remaining(said.release, fell.stop);
    reading.lingeringDb = lingering(power, said.release);
    return reading;
}

} // namespace quillbench
