#include "core/dsp/tied_pair/tied_pair.hpp"

#include "core/dsp/constants.hpp"
#include "core/dsp/string_priors.hpp"
#include "core/dsp/tied_pair/lone_record.hpp"
#include "core/dsp/tied_pair/tied_fit.hpp"
#include "core/dsp/tied_pair/tied_reading.hpp"
#include "core/dsp/tied_pair/tied_search.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <utility>
#include <vector>

namespace quillbench {

namespace {

constexpr double kAfterLaterPluck = 0.04; ///< s
constexpr double kPairTopHz = 5000.0;
constexpr int kUpperPartials = 10;
constexpr std::size_t kLeastPairFrames = 8;
constexpr double kFarCents = 30.0;
/// A string a few seconds later: what changes, one standard deviation.
constexpr std::array<double, kTiedGlobals> kAgainGlobal{0.03, 0.02, 0.5, 0.05};
constexpr std::array<double, kTiedLocals> kAgainLocal{0.02, 0.03, 0.02, 0.03};
constexpr double kGainLn = 0.2;
constexpr double kAloneGlide = 0.9;
/// Two strings of one key are alike in stiffness.
constexpr double kAlikeLn = 0.25;

/// The three strings: lower and upper in the pair, and the lower one alone.
std::vector<TiedString> stringsOf(const LoneRecord& lone, const TiedQuestion& question) {
    const double later = question.laterPluck.count();
    TiedString lower = lone.string;
    lower.pluck = later;
    lower.mean[kTiedPlace] = lone.found[kTiedPlace];
    lower.mean[kTiedStiffness] = lone.found[kTiedStiffness];
    lower.deviation[kTiedPlace] = kFarCents;
    TiedString alone = lower;
    alone.pluck = lone.string.pluck;
    const double n = question.lowerPartial;
    const double m = question.upperPartial;
    const double stiffness = std::exp(lone.found[kTiedStiffness]);
    const double met = n * lone.string.reference * std::exp(lone.found[kTiedPlace] * kCent) *
                           std::sqrt(1.0 + stiffness * n * n) +
                       question.beat;
    const bool unison = question.lowerPartial == question.upperPartial;
    const double upperStiffness = unison ? stiffness : stringPriors(met / m, 0.0).inharmonicity;
    const double f0 = met / m / std::sqrt(1.0 + upperStiffness * m * m);
    TiedString upper = tiedString(f0 * std::sqrt(1.0 + upperStiffness),
                                  upperStiffness,
                                  later,
                                  std::max(kUpperPartials, question.upperPartial),
                                  kFarCents);
    if (unison) {
        upper.deviation[kTiedStiffness] = kAlikeLn;
    }
    return {std::move(lower), std::move(upper), std::move(alone)};
}

TiedFit::Prior priorOf(const std::vector<TiedString>& strings, Cents drift) {
    const Eigen::Index lower = strings[0].unknowns();
    const Eigen::Index upper = strings[1].unknowns();
    const Eigen::Index all = 2 * lower + upper + 2;
    TiedFit::Prior prior;
    prior.mean.resize(all);
    prior.mean << strings[0].mean, strings[1].mean, strings[2].mean, 0.0, 0.0;
    Eigen::VectorXd own = Eigen::VectorXd::Zero(all);
    own.head(lower) = strings[0].deviation.cwiseAbs2().cwiseInverse();
    own.segment(lower, upper) = strings[1].deviation.cwiseAbs2().cwiseInverse();
    own[lower + upper + kTiedGlide] = 1.0 / (kAloneGlide * kAloneGlide);
    own[all - 2] = 1.0 / (kGainLn * kGainLn);
    own[all - 1] = 1.0;
    prior.precision = own.asDiagonal();
    for (Eigen::Index i = 0; i < lower; ++i) {
        double sd = i < kTiedGlobals
                        ? kAgainGlobal[static_cast<std::size_t>(i)]
                        : kAgainLocal[static_cast<std::size_t>((i - kTiedGlobals) % kTiedLocals)];
        if (i == kTiedPlace) {
            sd = std::hypot(sd, drift.value());
        }
        const double precision = 1.0 / (sd * sd);
        const Eigen::Index j = lower + upper + i;
        prior.precision(i, i) += precision;
        prior.precision(j, j) += precision;
        prior.precision(i, j) -= precision;
        prior.precision(j, i) -= precision;
    }
    return prior;
}

std::vector<TiedBand>
bandsOf(const TiedSound& sound, const std::vector<TiedString>& strings, const LoneRecord& lone) {
    const std::array<const TiedString*, 2> pair{&strings[0], &strings[1]};
    const TiedGroups groups = groupsOf(pair, std::min(kPairTopHz, 0.45 * sound.rate.hz()));
    std::vector<TiedBand> bands;
    for (std::size_t g = 0; g < groups.parts.size(); ++g) {
        if (!canBeParted(groups.spacing[g])) {
            continue;
        }
        TiedBand band;
        band.segments.push_back(
            cutSegment(sound, groups.centre[g], groups.spacing[g], groups.parts[g]));
        if (band.segments[0].times.size() < kLeastPairFrames) {
            continue;
        }
        for (std::size_t p = 0; p < groups.parts[g].size(); ++p) {
            const TiedPart& part = groups.parts[g][p];
            const auto alone = std::find_if(
                lone.segments.begin(), lone.segments.end(), [&part](const TiedSegment& one) {
                    return one.parts[0].partial == part.partial;
                });
            if (part.string == 0 && alone != lone.segments.end()) {
                band.segments.push_back(*alone);
                band.segments.back().parts[0].string = 2;
                band.tied = true;
                band.lowerLine = 2 * static_cast<Eigen::Index>(p);
                band.reference = {alone->top, 0.3 * alone->top};
            }
        }
        bands.push_back(std::move(band));
    }
    return bands;
}

} // namespace

std::vector<TiedOptimum> hearTied(std::span<const double> samples,
                                  SampleRate rate,
                                  Seconds stop,
                                  const LoneRecord& lower,
                                  const TiedQuestion& question) {
    const double later = question.laterPluck.count();
    std::vector<TiedString> strings = stringsOf(lower, question);
    std::vector<TiedBand> bands =
        bandsOf({samples, rate, later + kAfterLaterPluck, stop.count()}, strings, lower);
    TiedFit::Prior prior = priorOf(strings, question.drift);
    TiedFit fit(std::move(strings), std::move(bands), std::move(prior));
    const auto meeting =
        TiedMeeting::find(fit, question.lowerPartial - 1, question.upperPartial - 1, later);
    if (!meeting) {
        return {};
    }
    const std::vector<TiedPlace> places = TiedSearch(fit, question, lower).run();
    std::vector<TiedOptimum> optima;
    optima.reserve(places.size());
    for (const TiedPlace& place : places) {
        optima.push_back(meeting->optimum(fit, place.at, place.cost));
    }
    std::sort(optima.begin(), optima.end(), [](const TiedOptimum& a, const TiedOptimum& b) {
        return a.lnWeight > b.lnWeight;
    });
    std::vector<TiedOptimum> apart;
    for (const TiedOptimum& one : optima) {
        const bool there = std::any_of(apart.begin(), apart.end(), [&one](const auto& other) {
            return std::abs(other.beat - one.beat) <= 0.01 && other.lnWeight - one.lnWeight <= 0.5;
        });
        if (!there) {
            apart.push_back(one);
        }
    }
    return apart;
}

} // namespace quillbench
