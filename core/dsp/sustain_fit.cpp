#include "core/dsp/sustain_fit.hpp"

#include "core/dsp/definition_fit.hpp"
#include "core/dsp/definition_time.hpp"
#include "core/dsp/mean_frequency.hpp"
#include "core/dsp/scatter_mixture.hpp"
#include "core/support/contract.hpp"

#include <Eigen/Dense>

#include <algorithm>
#include <cmath>
#include <utility>

namespace quillbench {

namespace {

constexpr std::size_t kMostFitted = HeterodyneBank::kMostPartials;
constexpr int kRounds = 5;
// Uncertainty: shares of a variance, set on real notes and on generators of several makes together by the
// likelihood of their errors, then widened until 95 % lay within two standard deviations.
constexpr double kData = 1.7;         // of the fit's own variance
constexpr double kDisagreement = 0.7; // of the square by which two weightings part
constexpr double kDefinition =
    1.2;                         // of the squared residuals' share: other weightings differ so much
constexpr double kCastOut = 3.0; // cents: a residual counts for no more
constexpr double kOwnWander = 0.12;    // of the wandering of single partials
constexpr double kUnheardCents = 0.45; // of a partial that has its time still before it
constexpr double kCommonCents = 0.12;  // of all partials together, where nothing was heard yet
constexpr double kGlideShape = 0.12;   // of the glide that is still to come
constexpr double kFloorCents = 0.05;
constexpr double kMostWander = 3.0; // cents

using Mixtures = std::array<ScatterMixture, kMostFitted>;

/// Seconds after the pluck that most partials were heard.
double heardUntil(std::span<const PhaseTrack> tracks) {
    double last = 0.0;
    for (const PhaseTrack& track : tracks) {
        last = std::max(last, track.points[track.points.size() - 1].t);
    }
    return std::min(last, EnergyModel::kEnd);
}

/// Mean of S/S(0) in the sustain pitch: over the definition's time, of a partial that lasts.
double sustainMeanOf(const EnergyModel& energy) {
    return energy.slopeMean(kSustainFrom, EnergyModel::kEnd);
}

/// Part of a partial's time, by the definition, that is still to come.
double unheardPart(const PhaseTrack& track, double end) {
    const double heard = track.points[track.points.size() - 1].t;
    return std::clamp((end - heard) / (end - kSustainFrom), 0.0, 1.0);
}

double square(double x) {
    return x * x;
}

/// What makes the pitch uncertain, gathered partial by partial, in cents².
struct Doubt {
    double data = 0.0;      ///< noise and what was believed
    double weights = 0.0;   ///< Σ of the squared weights
    double unheard = 0.0;   ///< the same, of what is still to come
    double residuals = 0.0; ///< Σ of squared distances from the comb, cast out or not
    double partials = 0.0;

    void addPartial(double weight, const PartialBelief& belief, double off, double unheardPart) {
        data += square(weight) * belief.variance;
        weights += square(weight);
        unheard += square(weight * unheardPart);
        residuals += std::min(square(off), square(kCastOut));
        partials += 1.0;
    }

    [[nodiscard]] double variance(double scatterCents) const {
        return kData * data + kDefinition * residuals / square(partials) +
               square(kOwnWander * scatterCents) * weights + square(kUnheardCents) * unheard +
               square(kFloorCents);
    }
};

struct GlideMoments {
    double mean;
    double variance;
};

/// Mean and variance of the glide under a Gaussian likelihood (mean, precision) and the log-normal prior.
GlideMoments glideMoments(double mean, double precision, const StringPriors& priors) {
    constexpr int kGrid = 61;
    double best = -1e300;
    std::array<double, kGrid> logs{};
    std::array<double, kGrid> glides{};
    for (int i = 0; i < kGrid; ++i) {
        const double z = -3.5 + 7.0 * i / (kGrid - 1);
        const auto k = static_cast<std::size_t>(i);
        glides[k] = priors.glideCents * std::exp(z * priors.glideLnSd);
        logs[k] = -0.5 * z * z - 0.5 * precision * (glides[k] - mean) * (glides[k] - mean);
        best = std::max(best, logs[k]);
    }
    double sum = 0.0;
    double first = 0.0;
    double second = 0.0;
    for (std::size_t k = 0; k < logs.size(); ++k) {
        const double weight = std::exp(logs[k] - best);
        sum += weight;
        first += weight * glides[k];
        second += weight * glides[k] * glides[k];
    }
    const double average = first / sum;
    return {average, std::max(second / sum - average * average, 1e-6)};
}

} // namespace

SustainFit fitSustain(std::span<const PhaseTrack> tracks,
                      const EnergyModel& energy,
                      std::span<const PartialDecay> decays,
                      const StiffComb& base,
                      const StringPriors& priors) {
    EXPECTS(!tracks.empty() && tracks.size() <= kMostFitted);
    std::array<double, kMostFitted> ends{};
    definitionEnds(tracks, decays, {ends.data(), tracks.size()});
    Mixtures all;
    const std::span<ScatterMixture> mixtures(all.data(), tracks.size());
    for (std::size_t i = 0; i < tracks.size(); ++i) {
        meanFrequencies(tracks[i], ends[i], energy, base, kWander, all[i].byWander);
        all[i].share[3][4] =
            1.0; // a middling start, so that no few partials that happen to agree win
        all[i].offsetVariance = definitionVariance(base.partial(tracks[i].n));
    }

    Eigen::Matrix3d priorA = Eigen::Matrix3d::Zero();
    StringVector priorB = StringVector::Zero();
    priorA(0, 0) = 1e-6;
    priorA(1, 1) = 1.0 / (priors.inharmonicityLnSd * priors.inharmonicityLnSd);
    priorB(1) = std::log(priors.inharmonicity / base.b) * priorA(1, 1);
    GlideMoments glide = glideMoments(0.0, 0.0, priors);
    std::array<ScatterTable, kMostFitted> tables{};
    ScatterTable belief{};
    Eigen::Matrix3d a;
    StringVector b;
    StringVector at = StringVector::Zero();
    for (int round = 0; round < kRounds; ++round) {
        a = priorA;
        b = priorB;
        for (const ScatterMixture& mixture : mixtures) {
            mixture.addTo(a, b);
        }
        // Glide: likelihood with pitch and ln B eliminated, then its prior.
        const Eigen::Matrix2d inverse = a.topLeftCorner<2, 2>().inverse();
        const Eigen::Vector2d edge = a.block<2, 1>(0, 2);
        const double precision = std::max(a(2, 2) - edge.dot(inverse * edge), 0.0);
        const double pull = b(2) - edge.dot(inverse * b.head<2>());
        glide = glideMoments(precision > 0.0 ? pull / precision : 0.0, precision, priors);
        at.head<2>() = inverse * (b.head<2>() - edge * glide.mean);
        at(2) = glide.mean;
        for (std::size_t i = 0; i < tracks.size(); ++i) {
            tables[i] = likelihoods(mixtures[i], at);
        }
        belief = stringBelief({tables.data(), tracks.size()});
        for (std::size_t i = 0; i < tracks.size(); ++i) {
            mixtures[i].share = shareOf(tables[i], belief);
        }
    }

    const Eigen::Matrix2d inverse = a.topLeftCorner<2, 2>().inverse();
    const Eigen::Vector2d perGlide = -inverse * a.block<2, 1>(0, 2);
    std::array<PartialBelief, kMostFitted> beliefs;
    for (std::size_t i = 0; i < tracks.size(); ++i) {
        beliefs[i] = beliefIn(mixtures[i], at, perGlide);
    }
    const DefinitionFit defined = fitByDefinition({beliefs.data(), tracks.size()},
                                                  mixtures,
                                                  at.head<2>(),
                                                  std::log(priors.inharmonicity / base.b),
                                                  priors.inharmonicityLnSd);
    Doubt doubt;
    double glideSlope = 0.0;
    Eigen::Vector2d shared = Eigen::Vector2d::Zero();
    const auto [wander, usual] = meanLogs(belief);
    for (std::size_t i = 0; i < tracks.size(); ++i) {
        const double weight = defined.weight[i];
        doubt.addPartial(weight,
                         beliefs[i],
                         beliefs[i].mean - beliefs[i].x.dot(defined.at),
                         unheardPart(tracks[i], ends[i]));
        glideSlope += weight * beliefs[i].perGlide;
        shared += weight * beliefs[i].lean * beliefs[i].x;
    }
    SustainFit fit;
    fit.scatterCents = std::exp(wander);
    // Two ways to weigh the partials: by the definition, and by what each has shown of itself. Where they
    // part, neither is sure.
    const double apart = defined.at(0) - at(0);
    const double heard = heardUntil(tracks);
    const double ahead = energy.slopeMean(kSustainFrom, std::max(heard, kSustainFrom + 0.05)) -
                         sustainMeanOf(energy);
    doubt.data += shared.dot(inverse * shared) + glideSlope * glideSlope * glide.variance;
    const double missing = 1.0 - heard / EnergyModel::kEnd;
    fit.pitchSdCents = std::sqrt(doubt.variance(std::min(fit.scatterCents, kMostWander)) +
                                 kDisagreement * apart * apart + square(kCommonCents * missing) +
                                 square(kGlideShape * glide.mean * ahead));
    // The definition's weights suit partials that were heard to their end; until then what each has shown.
    const double byDefinition = 0.2 + 0.5 * heard / EnergyModel::kEnd;
    fit.pitchHz = base.pitch() * std::exp((at(0) + byDefinition * apart) * kCent);
    fit.comb.b = base.b * std::exp(std::clamp(defined.at(1), -3.0, 3.0));
    fit.comb.f0 = fit.pitchHz / std::sqrt(1.0 + fit.comb.b);
    fit.lnBSd = std::sqrt(inverse(1, 1) + perGlide(1) * perGlide(1) * glide.variance);
    fit.glideCents = glide.mean;
    const double sharper = 1.0 - sustainMeanOf(energy);
    fit.startCents = glide.mean * sharper;
    fit.startSdCents = std::sqrt(glide.variance) * sharper;
    for (std::size_t i = 0; i < tracks.size(); ++i) {
        fit.trust[i] = std::exp(usual - meanLogs(all[i].share).second);
        fit.partials[i] = {
            base.partial(tracks[i].n) * std::exp(beliefs[i].mean * kCent),
            std::sqrt(kData * beliefs[i].variance + square(beliefs[i].perGlide) * glide.variance)};
    }
    return fit;
}

} // namespace quillbench
