#include "core/dsp/beat_estimator.hpp"

#include "core/dsp/comb_fit.hpp"
#include "core/dsp/constants.hpp"
#include "core/dsp/pair_fit.hpp"
#include "core/dsp/polarised_band.hpp"
#include "core/dsp/tied_pair/tied_pair.hpp"

#include <algorithm>
#include <cmath>
#include <utility>
#include <vector>

namespace quillbench {

namespace {

/// A beat is the mean over this stretch after the later pluck, in s.
/// No beat above this is looked for at first: the ear takes it for roughness.
constexpr double kFastestBeat = 15.0;
/// Faster than this, near where the search ends, another line may have been taken for the string: Hz.
constexpr double kBelievedBeat = 13.0;
constexpr std::size_t kCandidates = 3;

/// The two strings before they are heard together, and where to look.
struct Pair {
    FitSpan span;
    int pa = 1;
    int pb = 1;
    Voice low;
    Voice high;
    double reach = 0.0; ///< Hz about the upper string's f0

    [[nodiscard]] bool unison() const { return pa == 1 && pb == 1; }
};

/// The upper string starts where it is pure with the lower one.
void placeUpper(Pair& pair, const PairQuestion& question, double pluck) {
    const double pure = pair.low.state.partial(pair.pa) / pair.pb;
    pair.high = freshVoice(pure, question.range, pluck);
    if (pair.unison()) {
        pair.high.state.lnB = pair.low.state.lnB;
        pair.high.prior.lnB = pair.low.state.lnB;
        pair.high.prior.lnBDeviation = 0.3;
    }
    const double stiffness = std::exp(pair.high.state.lnB) * pair.pb * pair.pb;
    pair.high.state.f0 = pure / std::sqrt(1.0 + stiffness);
    pair.high.prior.f0 = pair.high.state.f0;
    const double range = pair.high.state.f0 * (std::exp(question.range.value() * kCent) - 1.0);
    pair.reach = std::min(range, kFastestBeat / pair.pb);
}

CombFit fitOf(const Pair& pair, const Voice& low, const Voice& high, const FitPlan& plan) {
    CombFit fit = makeFit(pair.span, {low, high}, plan);
    if (pair.unison()) {
        fit.tieStiffness(0.1);
    }
    return fit;
}

/// f0 of the upper string to start from: minima of the cost over a wide grid of few partials, over a narrow one
/// of more, and either side of pure.
std::vector<double> startsOf(const Pair& pair) {
    const double length = pair.span.stop - pair.span.start;
    const double centre = pair.high.state.f0;
    std::vector<double> starts;
    const auto scan = [&](double width, int partials, std::size_t most) {
        CombFit fit =
            makeFit(pair.span, {pair.low, pair.high}, FitPlan{FitPlan{}.topHz, partials, 120});
        const double step = std::min(0.2 / length / std::max(partials * 0.5, 1.0), width / 12.0);
        const auto grid = gridAround(centre, width, step);
        for (const double f0 : deepest(grid, fit.scan(1, grid, kAllBands), most)) {
            starts.push_back(f0);
        }
    };
    scan(pair.reach, std::max(pair.pa, 3), 3);
    scan(std::min(pair.reach, 2.5 / length), std::max(2 * pair.pa, 8), 2);
    starts.push_back(centre + 0.1 / length);
    starts.push_back(centre - 0.1 / length);
    return starts;
}

struct Candidate {
    double cost = 0.0;
    std::vector<CombState> states;
};

/// The starts refined over the lower partials, best first, each optimum once.
std::vector<Candidate> candidatesOf(const Pair& pair) {
    std::vector<Candidate> candidates;
    for (const double f0 : startsOf(pair)) {
        Voice moved = pair.high;
        moved.state.f0 = f0;
        CombFit fit =
            fitOf(pair, pair.low, moved, FitPlan{FitPlan{}.topHz, std::max(2 * pair.pa, 6), 120});
        const double cost = fit.refine(8, kAllBands);
        candidates.push_back({cost, fit.strings()});
    }
    std::sort(candidates.begin(), candidates.end(), [](const Candidate& a, const Candidate& b) {
        return a.cost < b.cost;
    });
    std::vector<Candidate> distinct;
    for (Candidate& candidate : candidates) {
        const double f0 = candidate.states[1].f0;
        const bool there = std::any_of(distinct.begin(), distinct.end(), [f0](const Candidate& c) {
            return std::abs(c.states[1].f0 - f0) < 0.01;
        });
        if (!there && distinct.size() < kCandidates) {
            distinct.push_back(std::move(candidate));
        }
    }
    return distinct;
}

CombFit bestFit(const Pair& pair) {
    std::optional<CombFit> best;
    double lowest = 0.0;
    for (const Candidate& candidate : candidatesOf(pair)) {
        Voice low = pair.low;
        Voice high = pair.high;
        low.state = candidate.states[0];
        high.state = candidate.states[1];
        CombFit fit = fitOf(pair, low, high, FitPlan{});
        const double cost = fit.refine(14, kAllBands);
        if (!best || cost < lowest) {
            lowest = cost;
            best = std::move(fit);
        }
    }
    return std::move(*best);
}

/// The beat of two lines as the combs place them.
CombFit::Estimate combBeat(const CombFit& fit, std::size_t lower, std::size_t upper) {
    const auto a = fit.meanFrequency(lower, std::nullopt, kSustainFrom, kSustainTo);
    const auto b = fit.meanFrequency(upper, std::nullopt, kSustainFrom, kSustainTo);
    return {b.value - a.value, std::hypot(a.deviation, b.deviation)};
}

/// A beat by the polarisations of its two partials.
struct PolarisedBeat {
    CombFit::Estimate estimate;
    double fragility = 0.0; ///< Hz, of both: as PolarisedBandResult's
};

/// Mean beat of two lines as they sound together, each with its polarisations.
PolarisedBeat beatOf(const CombFit& fit, std::size_t lower, std::size_t upper, const Voice& low) {
    const std::size_t lowerBand = bandOf(fit, lower);
    const std::size_t upperBand = bandOf(fit, upper);
    PolarisedBandPlan plan;
    plan.frameCorrelation = fit.frameCorrelation();
    const PolarisedPartial a = polarisedPartial(fit, lower, low.known);
    const PolarisedPartial b = polarisedPartial(fit, upper, nullptr);
    const auto hear = [&](std::size_t band, const std::vector<PolarisedPartial>& partials) {
        plan.centre = fit.bands()[band].centre;
        return fitPolarisedBand(fit.times(), fit.bands()[band].envelope, partials, plan);
    };
    if (lowerBand == upperBand) {
        const auto both = hear(lowerBand, {a, b});
        const Eigen::MatrixXd& c = both.covariance;
        const double variance = c(0, 0) + c(1, 1) - 2.0 * c(0, 1);
        return {{both.meanHz[1] - both.meanHz[0], std::sqrt(std::max(variance, 0.0))},
                std::hypot(both.fragility[0], both.fragility[1])};
    }
    const auto first = hear(lowerBand, {a});
    const auto second = hear(upperBand, {b});
    const double variance = first.covariance(0, 0) + second.covariance(0, 0);
    return {{second.meanHz[0] - first.meanHz[0], std::sqrt(std::max(variance, 0.0))},
            std::hypot(first.fragility[0], second.fragility[0])};
}

/// The doubt about a beat: more than its own fit admits, the more the further it lies from what the two combs
/// say, the more another pluck would change it, and never less than a part of what polarisations do to a partial.
/// **Source** tests/accuracy, pairs, normal: 92 to 93 % within two deviations.
double doubtOf(const PolarisedBeat& heard, double comb, double hz) {
    constexpr double kOwn = 1.25;
    constexpr double kCombsApart = 0.35;
    constexpr double kLeastCents = 0.12;
    const double apart = kCombsApart * (heard.estimate.value - comb);
    return std::hypot(std::hypot(kOwn * heard.estimate.deviation, apart),
                      std::hypot(heard.fragility, kLeastCents * kCent * hz));
}

/// The two hearings of one beat, of the pair alone and of both combs, each by its own doubt: for its side. Pairs
/// stray from their combs by some 0.3 cent.
CombFit::Estimate
bothTogether(const CombFit::Estimate& heard, const CombFit::Estimate& comb, double hz) {
    constexpr double kOwn = 1.25;
    constexpr double kOwnCents = 0.12;
    constexpr double kCombOwn = 2.0;
    constexpr double kCombCents = 0.3;
    const double a =
        1.0 / (std::pow(kOwn * heard.deviation, 2) + std::pow(kOwnCents * kCent * hz, 2));
    const double b =
        1.0 / (std::pow(kCombOwn * comb.deviation, 2) + std::pow(kCombCents * kCent * hz, 2));
    return {(a * heard.value + b * comb.value) / (a + b), 1.0 / std::sqrt(a + b)};
}

/// What the lowest partials say about a string's presence.
struct Presence {
    int looked = 0;
    int heard = 0; ///< bands that the fit explains
    int own = 0;   ///< bands that the other string does not share
    int ownHeard = 0;
    std::vector<double> ratios; ///< amplitude against the other string's in shared bands
};

Presence presenceOf(const CombFit& fit, std::size_t string) {
    constexpr int kLowest = 8;
    constexpr double kLeftByFit = 0.5; // share of the band's energy that the fit leaves
    constexpr double kLeak =
        0.006;             // what a Hann window lets through from four bins off, and a little
    double loudest = 1e-8; // −160 dB of full scale is silence
    for (const CombLine& line : fit.lines()) {
        loudest = std::max(loudest, std::abs(line.amplitude));
    }
    Presence presence;
    for (std::size_t i = 0; i < fit.lines().size() && presence.looked < kLowest; ++i) {
        const CombLine& line = fit.lines()[i];
        if (line.string != string) {
            continue;
        }
        ++presence.looked;
        const std::size_t index = bandOf(fit, i);
        const CombBand& band = fit.bands()[index];
        const int heard =
            fit.residualShare(index) < kLeftByFit && std::abs(line.amplitude) > kLeak * loudest ? 1
                                                                                                : 0;
        presence.heard += heard;
        if (band.lines.size() == 1) {
            ++presence.own;
            presence.ownHeard += heard;
        } else {
            const std::size_t other = band.lines[0] == i ? band.lines[1] : band.lines[0];
            presence.ratios.push_back(std::abs(line.amplitude) /
                                      std::max(std::abs(fit.lines()[other].amplitude), 1e-12));
        }
    }
    return presence;
}

/// Whether a string sounds at all: at least two of its own bands are explained; where it shares every band with
/// the other string, its lines may not be whispers there.
bool speaks(const CombFit& fit, std::size_t string) {
    constexpr double kWhisper = 0.03; // −30 dB
    Presence presence = presenceOf(fit, string);
    if (presence.own >= 2) {
        return presence.ownHeard >= 2;
    }
    if (presence.heard < std::min(2, presence.looked) || presence.ratios.empty()) {
        return false;
    }
    const auto middle =
        presence.ratios.begin() + static_cast<std::ptrdiff_t>(presence.ratios.size() / 2);
    std::nth_element(presence.ratios.begin(), middle, presence.ratios.end());
    return *middle > kWhisper;
}

/// The beat of the lowest pair.
struct LowestBeat {
    CombFit::Estimate heard; ///< by the fit of that pair alone
    double doubt = 0.0;      ///< one standard deviation, all told
    CombFit::Estimate both;  ///< with what all partials say, for its side
    double leeway = 0.0;     ///< how far it may be off and still be called still
};

/// All pairs that meet; the first one with its polarisations. Returns its beat, nothing where it is too high.
std::optional<LowestBeat> readMeetings(const Pair& pair, const CombFit& fit, BeatReading& reading) {
    std::optional<LowestBeat> first;
    for (int k = 1; k <= 8; ++k) {
        const auto a = findLine(fit, 0, k * pair.pa);
        const auto b = findLine(fit, 1, k * pair.pb);
        if (!a || !b) {
            break;
        }
        CombFit::Estimate beat = combBeat(fit, *a, *b);
        if (k == 1) {
            const CombFit::Estimate comb = beat;
            const double hz = fit.lineFrequency(fit.lines()[*a]);
            const PolarisedBeat polarised = beatOf(fit, *a, *b, pair.low);
            beat = polarised.estimate;
            first = {beat,
                     doubtOf(polarised, comb.value, hz),
                     bothTogether(beat, comb, hz),
                     beat.deviation};
        }
        const double la = std::abs(fit.lines()[*a].amplitude);
        const double lb = std::abs(fit.lines()[*b].amplitude);
        const double ratio = std::min(la, lb) / std::max({la, lb, 1e-12});
        MeetingPartials meeting;
        meeting.lowerPartial = k * pair.pa;
        meeting.upperPartial = k * pair.pb;
        meeting.frequency = Hertz(fit.lineFrequency(fit.lines()[*a]));
        meeting.beat = BeatRate(beat.value);
        meeting.depthDb = 20.0 * std::log10((1.0 + ratio) / std::max(1.0 - ratio, 1e-3));
        reading.coincident.tryPush(meeting);
    }
    return first;
}

/// A string's own beat where it is beyond doubt.
std::optional<double> ownBeatOf(const KnownString& known, int number) {
    for (const KnownPartial& partial : known.partials) {
        if (partial.number == number && partial.polarisation &&
            partial.polarisation->secondShare > 0.1 &&
            std::abs(partial.polarisation->splitHz) >
                std::max(3.0 * partial.polarisation->splitDeviation, 0.1)) {
            return std::abs(partial.polarisation->splitHz);
        }
    }
    return std::nullopt;
}

/// Still is decided by the pair's own deviation, not by the wider doubt that is told: that one also covers how far a
/// pair of partials strays from its strings, which has no side. The side is that of both hearings together.
BeatDirection directionOf(const LowestBeat& beat, Hertz met, bool labelsSure) {
    constexpr double kNoSide = 0.674; // the other sign has one chance in four
    constexpr double kEven = 0.25;    // two in five
    const double size = std::abs(beat.heard.value);
    const double u = beat.heard.deviation;
    const double side = std::abs(beat.both.value) / beat.both.deviation;
    const double still = stillLimit(met).perSecond();
    const bool within = size <= still && size + beat.leeway <= 2.0 * still;
    const bool noSide = size < kNoSide * u && side < kNoSide;
    if (within && (noSide || size + u < kStillBeat.perSecond())) {
        return BeatDirection::Pure;
    }
    if (!labelsSure || side < kEven) {
        return BeatDirection::Unknown;
    }
    return beat.both.value > 0.0 ? BeatDirection::Wide : BeatDirection::Narrow;
}

/// What the fit together with the lower string's record says counts too, where there is such a record.
void tieToRecord(
    LowestBeat& beat, const Pair& pair, Seconds first, const KnownString& lower, double hz) {
    constexpr double kHearingsApart = 0.35;
    constexpr double kLeastCents = 0.05;
    TiedQuestion asked;
    asked.lowerPartial = pair.pa;
    asked.upperPartial = pair.pb;
    asked.firstPluck = first;
    asked.laterPluck = Seconds(pair.span.zero);
    asked.drift = lower.drift;
    asked.beat = beat.heard.value;
    const auto optima = hearTied(pair.span.samples,
                                 pair.span.rate,
                                 Seconds(pair.span.zero + pair.span.stop),
                                 *lower.record,
                                 asked);
    if (optima.empty()) {
        return;
    }
    const BothHearings both = bothHearings(optima, beat.heard.value, beat.doubt, hz);
    const double apart = kHearingsApart * (both.beat - beat.heard.value);
    beat.doubt = std::hypot(both.uncertainty, apart, kLeastCents * kCent * hz);
    beat.heard = {both.beat, both.uncertainty};
    beat.both = beat.heard;
    beat.leeway = 2.0 * both.uncertainty;
}

/// The same pair with its strings' parts exchanged: the known one comes first.
PairQuestion exchanged(const PairQuestion& question) {
    PairQuestion other = question;
    std::swap(other.lowerPartial, other.upperPartial);
    std::swap(other.lowerTarget, other.upperTarget);
    std::swap(other.lower, other.upper);
    return other;
}

/// What was read of exchanged strings, told of the strings as they are.
BeatReading exchanged(BeatReading reading) {
    reading.beat = -reading.beat;
    reading.width = -reading.width;
    reading.lowerOwnBeat.reset();
    std::swap(reading.lowerComb, reading.upperComb);
    if (reading.direction == BeatDirection::Wide || reading.direction == BeatDirection::Narrow) {
        reading.direction =
            reading.direction == BeatDirection::Wide ? BeatDirection::Narrow : BeatDirection::Wide;
    }
    for (MeetingPartials& meeting : reading.coincident) {
        std::swap(meeting.lowerPartial, meeting.upperPartial);
        meeting.beat = -meeting.beat;
    }
    return reading;
}

} // namespace

BeatRate stillLimit(Hertz coincident) {
    return std::max(kStillBeat, kStillBeat * (coincident.value() / 300.0));
}

BeatReading hearPair(std::span<const double> samples,
                     SampleRate rate,
                     Seconds lowerPluck,
                     Seconds upperPluck,
                     Seconds stop,
                     const PairQuestion& question) {
    if (!question.lower && question.upper) {
        return exchanged(
            hearPair(samples, rate, upperPluck, lowerPluck, stop, exchanged(question)));
    }
    BeatReading reading;
    const double later = std::max(lowerPluck, upperPluck).count();
    Pair pair;
    pair.pa = question.lowerPartial;
    pair.pb = question.upperPartial;
    pair.span = {samples,
                 rate,
                 later,
                 question.from.count(),
                 stop.count() - later,
                 question.lowerTarget.value() / pair.pb};
    if (pair.span.stop - pair.span.start < 0.2) {
        return reading;
    }
    const double lowerAt = lowerPluck.count() - later;
    pair.low = question.lower ? knownVoice(*question.lower, lowerAt)
                              : freshVoice(question.lowerTarget.value(), question.range, lowerAt);
    if (!question.lower && !pair.unison()) {
        // Partials of the lower string that the upper one does not share say where it lies.
        const auto heard =
            hearAlone(samples, rate, Seconds(later), stop, question.lowerTarget, question.range);
        pair.low.state.f0 = heard ? heard->f0Hz : pair.low.state.f0;
    }
    placeUpper(pair, question, upperPluck.count() - later);
    const CombFit fit = bestFit(pair);
    if (!speaks(fit, 0) || !speaks(fit, 1)) {
        return reading;
    }
    auto beat = readMeetings(pair, fit, reading);
    if (!beat) {
        return reading;
    }
    const Hertz met = reading.coincident[0].frequency;
    reading.found = true;
    reading.lowerComb = Hertz(fit.strings()[0].f0);
    reading.upperComb = Hertz(fit.strings()[1].f0);
    if (question.lower && question.lower->record) {
        const Seconds first = question.firstPluck.value_or(std::min(lowerPluck, upperPluck));
        tieToRecord(*beat, pair, first, *question.lower, met.value());
    }
    reading.labelsSure = !pair.unison() || question.lower.has_value();
    reading.direction = directionOf(*beat, met, reading.labelsSure);
    const bool sided =
        reading.direction == BeatDirection::Wide || reading.direction == BeatDirection::Narrow;
    // Where the pair alone is so unsure that all partials together turn it round, they say its rate too.
    const bool turned = sided && beat->heard.value * beat->both.value < 0.0;
    const double value = turned ? beat->both.value : beat->heard.value;
    reading.beat = BeatRate(value);
    reading.beatUncertainty = beat->doubt;
    reading.width = Cents(value / (met.value() * kCent));
    reading.widthUncertainty = beat->doubt / (met.value() * kCent);
    reading.weak =
        reading.beatUncertainty > std::max(stillLimit(met).perSecond(), 0.1 * std::abs(value)) ||
        std::abs(value) > kBelievedBeat;
    if (question.lower) {
        reading.lowerOwnBeat = ownBeatOf(*question.lower, pair.pa);
    }
    return reading;
}

} // namespace quillbench
