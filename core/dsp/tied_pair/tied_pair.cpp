#include "core/dsp/tied_pair/tied_pair.hpp"

#include "core/dsp/constants.hpp"
#include "core/dsp/string_priors.hpp"
#include "core/dsp/tied_pair/lone_record.hpp"
#include "core/dsp/tied_pair/tied_fit.hpp"
#include "core/dsp/tied_pair/tied_reading.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <complex>
#include <cstddef>
#include <limits>
#include <utility>
#include <vector>

namespace quillbench {

namespace {

constexpr double kAfterLaterPluck = 0.04; ///< s
constexpr double kPairTopHz = 5000.0;
constexpr int kUpperPartials = 10;
constexpr std::size_t kLeastPairFrames = 8;
constexpr double kFarCents = 30.0;
constexpr AmplitudeTie kUntied{50.0, 50.0};
constexpr double kGridHz = 0.12;
/// Two plucks nearer than this are heard as one.
constexpr double kUnheard = 0.03;
constexpr double kPeriods = 0.6; ///< of the lower string, that a pluck's instant may be off
constexpr std::size_t kShifts = 2;

/// A string a few seconds later: what changes, one standard deviation.
constexpr std::array<double, kTiedGlobals> kAgainGlobal{0.03, 0.02, 0.5, 0.05};
constexpr std::array<double, kTiedLocals> kAgainLocal{0.02, 0.03, 0.02, 0.03};
constexpr double kGainLn = 0.2;
constexpr double kAloneGlide = 0.9;
/// Two strings of one key are alike in stiffness.
constexpr double kAlikeLn = 0.25;

/// Where the fit may end, and what it costs.
struct Place {
    double cost = 0.0;
    Eigen::VectorXd at;
    double pluck = 0.0; ///< s, of the lower string
};

void sortByCost(std::vector<Place>& places) {
    std::sort(places.begin(), places.end(), [](const Place& a, const Place& b) {
        return a.cost < b.cost;
    });
}

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

/// A partial of the lower string in the pair and alone: both polarisations together.
struct Amplitude {
    double hz = 0.0;
    std::complex<double> pair;
    std::complex<double> alone;
    double variance = 0.0;
};

/// Robust cost of a shift in time at the gain that suits it best; cost, shift, ln gain.
std::array<double, 3> costOfShift(const std::vector<Amplitude>& partials, double shift) {
    constexpr int kGains = 4;
    constexpr double kGainStep = 0.15;
    std::array<double, 3> best{std::numeric_limits<double>::infinity(), shift, 0.0};
    std::array<double, 2 * kGains + 1> costs{};
    for (const Amplitude& partial : partials) {
        const std::complex<double> turned =
            partial.alone * std::polar(1.0, -kTwoPi * partial.hz * shift);
        for (int g = -kGains; g <= kGains; ++g) {
            const double off = std::norm(partial.pair - std::exp(kGainStep * g) * turned);
            costs[static_cast<std::size_t>(g + kGains)] += std::log1p(off / partial.variance / 2.0);
        }
    }
    for (int g = -kGains; g <= kGains; ++g) {
        const double cost = costs[static_cast<std::size_t>(g + kGains)];
        if (cost < best[0]) {
            best = {cost, shift, kGainStep * g};
        }
    }
    return best;
}

/// The pair's search for its upper string.
class Search {
public:
    Search(TiedFit& tiedFit, const TiedQuestion& asked, const LoneRecord& lone)
        : fit(tiedFit),
          question(asked),
          upper(tiedFit.first(1)),
          lower(lone.string.unknowns()) {
        start = fit.prior.mean;
        start.head(lower) = lone.found;
        start.segment(fit.first(2), lower) = lone.found;
        f0 = lone.string.reference * std::exp(lone.found[kTiedPlace] * kCent);
        const double n = question.lowerPartial;
        met = n * f0 * std::sqrt(1.0 + std::exp(lone.found[kTiedStiffness]) * n * n);
    }

    [[nodiscard]] std::vector<Place> run();

private:
    [[nodiscard]] std::vector<double> grid() const;
    [[nodiscard]] std::vector<Place> coarse();
    [[nodiscard]] std::vector<std::pair<double, double>> shifts(const Eigen::VectorXd& at);
    [[nodiscard]] std::vector<Place> shifted(std::vector<Place> places);
    void pluckedAt(double pluck);
    [[nodiscard]] std::vector<Place> distinct(std::vector<Place> places) const;
    [[nodiscard]] std::vector<Place> split(const std::vector<Place>& places);

    TiedFit& fit;
    const TiedQuestion& question;
    Eigen::Index upper;
    Eigen::Index lower;
    Eigen::VectorXd start;
    double f0 = 0.0;
    double met = 0.0; ///< Hz, the lower string's meeting partial
};

/// Hz from where the upper string's meeting partial was heard; the mirror of the beat too.
std::vector<double> Search::grid() const {
    std::vector<double> values;
    const double reach = std::max(1.2, met * 2.5 * kCent);
    for (double v = -reach; v <= reach; v += kGridHz) {
        values.push_back(v);
    }
    const double mirror = -2.0 * question.beat;
    for (int i = -3; i <= 3; ++i) {
        values.push_back(mirror + i * kGridHz);
    }
    std::sort(values.begin(), values.end());
    return values;
}

std::vector<Place> Search::coarse() {
    const std::vector<double> values = grid();
    const bool unison = question.lowerPartial == question.upperPartial;
    const double m = question.upperPartial;
    const double stiffness = std::exp(start[upper + kTiedStiffness]);
    std::vector<Place> places;
    fit.settleNoise(start, 3);
    for (const double ln :
         unison ? std::vector<double>{0.0} : std::vector<double>{-0.4, 0.0, 0.4}) {
        std::vector<Place> row;
        for (const double hz : values) {
            Place place;
            place.at = start;
            place.at[upper + kTiedStiffness] += ln;
            place.at[upper + kTiedPlace] =
                hz / (kCent * met) -
                0.5 / kCent *
                    (std::log1p(stiffness * std::exp(ln) * m * m) - std::log1p(stiffness * m * m));
            place.cost = fit.costAt(place.at);
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
    for (Place& place : places) {
        place.cost = fit.refine(place.at, 5);
    }
    sortByCost(places);
    return places;
}

/// Time shifts of the lower string against its record, and the logarithm of the gain there: both from amplitudes that
/// are not tied, cheapest first.
std::vector<std::pair<double, double>> Search::shifts(const Eigen::VectorXd& at) {

    std::vector<Amplitude> rows;
    double highest = f0;
    for (std::size_t b = 0; b < fit.bands.size(); ++b) {
        const TiedBand& band = fit.bands[b];
        if (!band.tied) {
            continue;
        }
        const Eigen::VectorXcd a = fit.amplitudes(at, b);
        const Eigen::MatrixXcd c = 2.0 * fit.amplitudeCovariance(at, b);
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
    const double reach = kPeriods / f0;
    const double apart = question.laterPluck.count() - question.firstPluck.count();
    std::vector<double> tried;
    for (double shift = -apart - kUnheard - reach; shift <= reach; shift += step) {
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

std::vector<Place> Search::shifted(std::vector<Place> places) {
    std::vector<Place> tied;
    places.resize(std::min<std::size_t>(places.size(), 2));
    for (const Place& place : places) {
        fit.tie = kUntied;
        fit.settleNoise(place.at, 3);
        const auto found = shifts(place.at);
        for (const auto& [shift, gain] : found) {
            Place there = place;
            there.pluck = question.laterPluck.count() + shift;
            there.at[fit.gainIndex()] = gain;
            pluckedAt(there.pluck);
            fit.tie = AmplitudeTie();
            fit.settleNoise(there.at, 3);
            there.cost = fit.refine(there.at, 4);
            tied.push_back(std::move(there));
        }
        pluckedAt(question.laterPluck.count());
    }
    fit.tie = AmplitudeTie();
    sortByCost(tied);
    if (tied.empty()) {
        return tied;
    }
    const double pluck = tied.front().pluck;
    pluckedAt(pluck);
    std::erase_if(tied, [pluck](const Place& p) {
        return std::abs(p.pluck - pluck) >= 0.5 * TiedFit::kShiftUnit;
    });
    return tied;
}

/// The lower string was plucked then; the upper one at the other instant, where there are two.
void Search::pluckedAt(double pluck) {
    const double first = question.firstPluck.count();
    const double later = question.laterPluck.count();
    const bool upperFirst = later - pluck < pluck - first;
    fit.strings[0].pluck = pluck;
    fit.strings[1].pluck = upperFirst ? first : later;
}

std::vector<Place> Search::distinct(std::vector<Place> places) const {
    constexpr double kSameHz = 0.05;
    std::vector<Place> kept;
    for (Place& place : places) {
        const bool there = std::any_of(kept.begin(), kept.end(), [&](const Place& other) {
            return std::abs(other.at[upper] - place.at[upper]) * met * kCent <= kSameHz;
        });
        if (!there && kept.size() < 3) {
            kept.push_back(std::move(place));
        }
    }
    return kept;
}

/// Either sign of the split of the upper string's meeting partial.
std::vector<Place> Search::split(const std::vector<Place>& places) {
    constexpr double kSplitStart = 1.3;
    const Eigen::Index index = upper + TiedString::local(question.upperPartial - 1) + kTiedSplit;
    std::vector<Place> result;
    for (const Place& place : places) {
        Place asItIs = place;
        asItIs.cost = fit.refine(asItIs.at, 3);
        result.push_back(std::move(asItIs));
        for (const double cents : {-kSplitStart, kSplitStart}) {
            const double now = place.at[index];
            if (cents * now > 0.0 && std::abs(now) > 0.4) {
                continue; // it has that sign already
            }
            Place there = place;
            there.at[index] = cents;
            there.cost = fit.refine(there.at, 7);
            result.push_back(std::move(there));
        }
    }
    sortByCost(result);
    result.resize(std::min<std::size_t>(result.size(), 3));
    return result;
}

std::vector<Place> Search::run() {
    fit.tie = kUntied;
    std::vector<Place> places = split(distinct(shifted(coarse())));
    for (Place& place : places) {
        fit.reshape(place.at);
        place.cost = fit.refine(place.at, 14);
    }
    sortByCost(places);
    if (!places.empty()) {
        fit.reshape(places.front().at);
    }
    for (Place& place : places) {
        place.cost = fit.refine(place.at, 6);
    }
    return places;
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
    const std::vector<Place> places = Search(fit, question, lower).run();
    std::vector<TiedOptimum> optima;
    optima.reserve(places.size());
    for (const Place& place : places) {
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
