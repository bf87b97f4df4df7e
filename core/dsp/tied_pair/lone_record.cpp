#include "core/dsp/tied_pair/lone_record.hpp"

#include "core/dsp/string_priors.hpp"
#include "core/dsp/tied_pair/tied_fit.hpp"
#include "core/dsp/tied_pair/tied_pair.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <utility>

namespace quillbench {

namespace {

constexpr double kAfterPluck = 0.04; ///< s, the attack is no steady sound yet
constexpr double kAloneFor = 2.15;
constexpr double kLeastAlone = 0.5;
constexpr int kLeastPartials = 10;
constexpr double kAloneTopHz = 5000.0;
constexpr double kPlaceCents = 10.0; ///< how far the record's first hearing may be off
constexpr std::size_t kLeastFrames = 8;
/// No second polarisation yet.
constexpr double kOneLine = 1e-3;

/// Whatever one line a partial needs.
std::vector<Eigen::Index> oneLineUnknowns(const TiedString& string) {
    std::vector<Eigen::Index> unknowns;
    for (Eigen::Index i = 0; i < kTiedGlobals; ++i) {
        unknowns.push_back(i);
    }
    for (int i = 0; i < string.partials; ++i) {
        unknowns.push_back(TiedString::local(i) + kTiedOffset);
        unknowns.push_back(TiedString::local(i) + kTiedDecay);
    }
    return unknowns;
}

/// Partial by partial the split that fits best, what is common held.
void searchSplits(TiedFit& fit, Eigen::VectorXd& at) {
    for (std::size_t b = 0; b < fit.bands.size(); ++b) {
        const Eigen::Index q = TiedString::local(fit.bands[b].segments[0].parts[0].partial);
        TiedFit::Choice choice;
        choice.bands = {b};
        for (Eigen::Index i = 0; i < kTiedLocals; ++i) {
            choice.unknowns.push_back(q + i);
        }
        double lowest = std::numeric_limits<double>::infinity();
        Eigen::VectorXd best = at;
        for (const double cents : {-2.0, -1.0, -0.4, 0.4, 1.0, 2.0}) {
            Eigen::VectorXd there = at;
            there[q + kTiedSplit] = cents;
            const double cost = fit.refine(there, 8, choice);
            if (cost < lowest) {
                lowest = cost;
                best = there;
            }
        }
        at = best;
    }
}

} // namespace

std::shared_ptr<const LoneRecord> recordAlone(std::span<const double> samples,
                                              SampleRate rate,
                                              Seconds pluck,
                                              Seconds stop,
                                              const KnownString& known,
                                              int partial) {
    const double from = pluck.count() + kAfterPluck;
    const double to = std::min(stop.count(), pluck.count() + kAloneFor);
    if (to - from < kLeastAlone) {
        return nullptr;
    }
    const double hz = known.f0Hz * std::sqrt(1.0 + known.inharmonicity);
    TiedString string = tiedString(hz,
                                   stringPriors(hz, 0.0).inharmonicity,
                                   pluck.count(),
                                   std::max(kLeastPartials, partial),
                                   kPlaceCents);
    const std::array<const TiedString*, 1> one{&string};
    const TiedGroups groups = groupsOf(one, std::min(kAloneTopHz, 0.45 * rate.hz()));
    std::vector<TiedBand> bands;
    for (std::size_t g = 0; g < groups.parts.size(); ++g) {
        if (!canBeParted(groups.spacing[g])) {
            continue;
        }
        TiedSegment segment = cutSegment(
            {samples, rate, from, to}, groups.centre[g], groups.spacing[g], groups.parts[g]);
        if (segment.times.size() >= kLeastFrames) {
            TiedBand band;
            band.segments.push_back(std::move(segment));
            bands.push_back(std::move(band));
        }
    }
    if (bands.empty()) {
        return nullptr;
    }
    TiedFit::Prior prior;
    prior.mean = Eigen::VectorXd::Zero(string.unknowns() + 2);
    prior.mean.head(string.unknowns()) = string.mean;
    Eigen::VectorXd precision = Eigen::VectorXd::Ones(string.unknowns() + 2);
    precision.head(string.unknowns()) = string.deviation.cwiseAbs2().cwiseInverse();
    prior.precision = precision.asDiagonal();
    TiedFit fit({string}, std::move(bands), std::move(prior));
    Eigen::VectorXd at = fit.prior.mean;
    TiedFit::Choice oneLine;
    oneLine.unknowns = oneLineUnknowns(string);
    fit.model.secondShare = kOneLine;
    (void)fit.refine(at, 15, oneLine);
    fit.reshape(at);
    (void)fit.refine(at, 8, oneLine);
    fit.model.secondShare = TiedModel::kSecondShare;
    searchSplits(fit, at);
    for (int again = 0; again < 2; ++again) {
        fit.reshape(at);
        (void)fit.refine(at, 15);
    }
    auto record = std::make_shared<LoneRecord>(
        LoneRecord{fit.model.strings[0], at.head(string.unknowns()), {}});
    for (TiedBand& band : fit.bands) {
        record->segments.push_back(std::move(band.segments[0]));
    }
    return record;
}

} // namespace quillbench
