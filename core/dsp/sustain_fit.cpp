#include "core/dsp/sustain_fit.hpp"

#include "core/support/contract.hpp"

#include <Eigen/Dense>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace quillbench {

namespace {

constexpr std::size_t kMost = HeterodyneBank::kMostPartials;
constexpr std::size_t kSizes = 8;
using Sizes = std::array<double, kSizes>;
// How far a partial's frequency wanders, in cents, and how common that is before anything is heard.
constexpr Sizes kWander{0.03, 0.06, 0.12, 0.25, 0.5, 1.0, 2.0, 6.0};
constexpr Sizes kWanderCommon{0.08, 0.14, 0.22, 0.22, 0.16, 0.10, 0.05, 0.03};
// How far a partial's mean frequency lies off the comb, in multiples of its certainty in the definition.
constexpr Sizes kOffset{0.5, 1.0, 2.0, 4.0, 8.0, 16.0, 40.0, 150.0};
constexpr Sizes kOffsetCommon{0.06, 0.12, 0.20, 0.22, 0.18, 0.12, 0.07, 0.03};
constexpr double kCertaintyHz = 0.05;    // certainty of one partial's mean frequency in the definition:
constexpr double kCertaintyCents = 0.05; // both, added as variances
constexpr double kSplitCents = 1.0; // typical splitting by polarisation: sets the pace of wandering
constexpr double kCent = std::numbers::ln2 / 1200.0;
constexpr double kDiffuse = 1e4; // radians²: the phase at the pluck is unknown
constexpr int kRounds = 8;
constexpr double kPseudoCount = 4.0;
constexpr double kDefinition = 0.15; // of the scatter's share: other ways to weigh the partials differ so much
constexpr double kSustainFrom = 0.10; // seconds after the pluck, by definition

using Vector = Eigen::Vector3d; // pitch in cents, ln B, glide in cents
using Matrix = Eigen::Matrix3d;

/// Gaussian likelihood of (pitch, ln B, glide) from one partial, its own wandering removed.
struct Information {
    Matrix a = Matrix::Zero();
    Vector b = Vector::Zero();
    double square = 0.0;
    double logDeterminant = 0.0;

    [[nodiscard]] double logLikelihood(const Vector& at) const {
        return -0.5 * (logDeterminant + square - 2.0 * b.dot(at) + at.dot(a * at));
    }
};

struct Setting {
    const EnergyModel* energy;
    double sustainMean; // of S/S(0)
    StiffComb base;
};

/// Cents that partial n gains per unit of ln B while the pitch stays.
double stiffnessSlope(const StiffComb& comb, double n) {
    const auto part = [&](double k) { return comb.b * k * k / (1.0 + comb.b * k * k); };
    return 0.5 / kCent * (part(n) - part(1.0));
}

/// The partial's phase with its wandering removed by a Kalman filter; the state is phase and wandering.
Information filterTrack(const PhaseTrack& track, double wander, const Setting& setting) {
    const double hz = setting.base.partial(track.n);
    const double turn = 2.0 * std::numbers::pi * hz * kCent; // radians per second and cent
    const double pace = turn * kSplitCents;
    const double slope = stiffnessSlope(setting.base, track.n);
    const double wanderVariance = wander * wander;
    double p00 = kDiffuse;
    double p01 = 0.0;
    double p11 = wanderVariance;
    Eigen::RowVector4d phase = Eigen::RowVector4d::Zero();
    Eigen::RowVector4d drift = Eigen::RowVector4d::Zero();
    Information information;
    double last = track.points[0].t;
    for (const PhasePoint& point : track.points) {
        const double step = point.t - last;
        const double keep = std::exp(-step * pace);
        const double reach = turn * step * 0.5 * (1.0 + keep);
        const double fresh = wanderVariance * (1.0 - keep * keep);
        const double half = 0.5 * turn * step;
        phase += reach * drift;
        drift *= keep;
        p00 += 2.0 * reach * p01 + reach * reach * p11 + half * half * fresh;
        p01 = keep * (p01 + reach * p11) + half * fresh;
        p11 = keep * keep * p11 + fresh;
        last = point.t;
        Eigen::RowVector4d seen;
        seen(0) =
            point.phase - 2.0 * std::numbers::pi * (hz - track.referenceHz) * point.t;
        seen(1) = turn * point.t;
        seen(2) = turn * slope * point.t;
        seen(3) = turn * (setting.energy->integral(point.t) - setting.sustainMean * point.t);
        const Eigen::RowVector4d surprise = seen - phase;
        const double variance = p00 + point.variance;
        phase += p00 / variance * surprise;
        drift += p01 / variance * surprise;
        p11 -= p01 * p01 / variance;
        p01 -= p00 * p01 / variance;
        p00 -= p00 * p00 / variance;
        const Vector x = surprise.tail<3>().transpose();
        information.a += x * x.transpose() / variance;
        information.b += x * surprise(0) / variance;
        information.square += surprise(0) * surprise(0) / variance;
        information.logDeterminant += std::log(variance);
    }
    return information;
}

/// The same with the partial's own constant offset, of this variance in cents², integrated out.
Information withOffset(const Information& sure, double variance) {
    const double precision = sure.a(0, 0) + 1.0 / variance;
    const Vector column = sure.a.col(0);
    Information result;
    result.a = sure.a - column * column.transpose() / precision;
    result.b = sure.b - column * (sure.b(0) / precision);
    result.square = sure.square - sure.b(0) * sure.b(0) / precision;
    result.logDeterminant = sure.logDeterminant + std::log1p(variance * sure.a(0, 0));
    return result;
}

double definitionVariance(double hz) {
    const double cents = kCertaintyHz / (hz * kCent);
    return cents * cents + kCertaintyCents * kCertaintyCents;
}

/// Effective mean of S/S(0) in the sustain pitch: the comb is fitted to mean frequencies of partials that
/// last differently long.
double sustainMeanOf(const EnergyModel& energy,
                     std::span<const PartialDecay> decays,
                     const StiffComb& base) {
    Eigen::Matrix2d a = Eigen::Matrix2d::Identity() * 1e-9;
    Eigen::Vector2d b = Eigen::Vector2d::Zero();
    for (const PartialDecay& decay : decays) {
        const double hz = base.partial(decay.n);
        const double end =
            std::clamp(std::log(100.0) / decay.rate, kSustainFrom + 0.1, EnergyModel::kEnd);
        const double mean = energy.slopeMean(kSustainFrom, end);
        const double variance = definitionVariance(hz);
        const Eigen::Vector2d x(1.0, stiffnessSlope(base, decay.n));
        a += x * x.transpose() / variance;
        b += x * mean / variance;
    }
    a(1, 1) += 1.0; // ln B is held by its prior where one or two partials cannot say it
    return a.ldlt().solve(b)(0);
}

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

/// Likelihoods of one partial for every size of wandering and offset, and how the two share its belief.
struct Mixture {
    std::array<Information, kSizes> byWander;
    double offsetVariance = 0; ///< of the definition
    std::array<Sizes, kSizes> share{}; ///< [wander][offset]

    [[nodiscard]] Information at(std::size_t wander, std::size_t offset) const {
        return withOffset(byWander[wander], offsetVariance * kOffset[offset] * kOffset[offset]);
    }
};

using Mixtures = std::array<Mixture, kMost>;

/// Belief in each pair of sizes at a trial value of the parameters.
void weigh(Mixture& mixture, const Vector& at, const Sizes& wanders, const Sizes& offsets) {
    double best = -1e300;
    for (std::size_t w = 0; w < kSizes; ++w) {
        for (std::size_t o = 0; o < kSizes; ++o) {
            const double value = std::log(wanders[w] * offsets[o]) + mixture.at(w, o).logLikelihood(at);
            mixture.share[w][o] = value;
            best = std::max(best, value);
        }
    }
    double sum = 0.0;
    for (Sizes& row : mixture.share) {
        for (double& share : row) {
            share = std::exp(share - best);
            sum += share;
        }
    }
    for (Sizes& row : mixture.share) {
        for (double& share : row) {
            share /= sum;
        }
    }
}

/// What is common in this string: the prior with every partial's belief counted in.
void learn(std::span<const Mixture> mixtures, Sizes& wanders, Sizes& offsets) {
    const double total = kPseudoCount + static_cast<double>(mixtures.size());
    for (std::size_t i = 0; i < kSizes; ++i) {
        double wander = kPseudoCount * kWanderCommon[i];
        double offset = kPseudoCount * kOffsetCommon[i];
        for (const Mixture& mixture : mixtures) {
            for (std::size_t k = 0; k < kSizes; ++k) {
                wander += mixture.share[i][k];
                offset += mixture.share[k][i];
            }
        }
        wanders[i] = wander / total;
        offsets[i] = offset / total;
    }
}

double meanLog(const Sizes& sizes, const Sizes& shares) {
    double sum = 0.0;
    for (std::size_t i = 0; i < kSizes; ++i) {
        sum += shares[i] * std::log(sizes[i]);
    }
    return sum;
}

/// Variance in cents² that the partials' scatter alone gives the pitch. The definition's own comb has it too: it is
/// no error of the reading.
double scatterVariance(std::span<const Mixture> mixtures,
                       std::span<const PhaseTrack> tracks,
                       const StiffComb& base,
                       double lnBPrecision) {
    Eigen::Matrix2d a = Eigen::Matrix2d::Zero();
    a(1, 1) = lnBPrecision;
    for (std::size_t i = 0; i < tracks.size(); ++i) {
        double precision = 0.0;
        for (const Sizes& row : mixtures[i].share) {
            for (std::size_t o = 0; o < kSizes; ++o) {
                precision += row[o] / (mixtures[i].offsetVariance * kOffset[o] * kOffset[o]);
            }
        }
        const Eigen::Vector2d x(1.0, stiffnessSlope(base, tracks[i].n));
        a += precision * x * x.transpose();
    }
    return a.inverse()(0, 0);
}

} // namespace

SustainFit fitSustain(std::span<const PhaseTrack> tracks,
                      const EnergyModel& energy,
                      std::span<const PartialDecay> decays,
                      const StiffComb& base,
                      const StringPriors& priors) {
    EXPECTS(!tracks.empty() && tracks.size() <= kMost);
    const Setting setting{&energy, sustainMeanOf(energy, decays, base), base};
    Mixtures all;
    const std::span<Mixture> mixtures(all.data(), tracks.size());
    for (std::size_t i = 0; i < tracks.size(); ++i) {
        for (std::size_t w = 0; w < kSizes; ++w) {
            all[i].byWander[w] = filterTrack(tracks[i], kWander[w], setting);
            for (std::size_t o = 0; o < kSizes; ++o) {
                all[i].share[w][o] = kWanderCommon[w] * kOffsetCommon[o];
            }
        }
        all[i].offsetVariance = definitionVariance(base.partial(tracks[i].n));
    }

    Matrix priorA = Matrix::Zero();
    Vector priorB = Vector::Zero();
    priorA(0, 0) = 1e-6;
    priorA(1, 1) = 1.0 / (priors.inharmonicityLnSd * priors.inharmonicityLnSd);
    priorB(1) = std::log(priors.inharmonicity / base.b) * priorA(1, 1);
    GlideMoments glide = glideMoments(0.0, 0.0, priors);
    Sizes wanders = kWanderCommon;
    Sizes offsets = kOffsetCommon;
    Matrix a;
    Vector b;
    Vector at = Vector::Zero();
    for (int round = 0; round < kRounds; ++round) {
        a = priorA;
        b = priorB;
        for (const Mixture& mixture : mixtures) {
            for (std::size_t w = 0; w < kSizes; ++w) {
                for (std::size_t o = 0; o < kSizes; ++o) {
                    if (mixture.share[w][o] > 1e-4) {
                        const Information information = mixture.at(w, o);
                        a += mixture.share[w][o] * information.a;
                        b += mixture.share[w][o] * information.b;
                    }
                }
            }
        }
        // Glide: likelihood with pitch and ln B eliminated, then its prior.
        const Eigen::Matrix2d inverse = a.topLeftCorner<2, 2>().inverse();
        const Eigen::Vector2d edge = a.block<2, 1>(0, 2);
        const double precision = std::max(a(2, 2) - edge.dot(inverse * edge), 0.0);
        const double pull = b(2) - edge.dot(inverse * b.head<2>());
        glide = glideMoments(precision > 0.0 ? pull / precision : 0.0, precision, priors);
        at.head<2>() = inverse * (b.head<2>() - edge * glide.mean);
        at(2) = glide.mean;
        for (Mixture& mixture : mixtures) {
            weigh(mixture, at, wanders, offsets);
        }
        learn(mixtures, wanders, offsets);
    }

    const Eigen::Matrix2d inverse = a.topLeftCorner<2, 2>().inverse();
    const Eigen::Vector2d perGlide = -inverse * a.block<2, 1>(0, 2);
    const double scatter = scatterVariance(mixtures, tracks, base, priorA(1, 1));
    const double heard = std::max(inverse(0, 0) - scatter, 0.05 * inverse(0, 0));
    SustainFit fit;
    fit.pitchHz = base.pitch() * std::exp(at(0) * kCent);
    fit.pitchSdCents = std::sqrt(heard + kDefinition * kDefinition * scatter +
                                 perGlide(0) * perGlide(0) * glide.variance);
    fit.comb.b = base.b * std::exp(std::clamp(at(1), -3.0, 3.0));
    fit.comb.f0 = fit.pitchHz / std::sqrt(1.0 + fit.comb.b);
    fit.lnBSd = std::sqrt(inverse(1, 1) + perGlide(1) * perGlide(1) * glide.variance);
    fit.glideCents = glide.mean;
    fit.startCents = glide.mean * (1.0 - setting.sustainMean);
    fit.startSdCents = std::sqrt(glide.variance) * (1.0 - setting.sustainMean);
    fit.scatterCents = std::exp(meanLog(kWander, wanders));
    const double usual = meanLog(kOffset, offsets);
    for (std::size_t i = 0; i < tracks.size(); ++i) {
        Sizes offset{};
        for (const Sizes& row : all[i].share) {
            for (std::size_t o = 0; o < kSizes; ++o) {
                offset[o] += row[o];
            }
        }
        fit.trust[i] = std::exp(usual - meanLog(kOffset, offset));
    }
    return fit;
}

} // namespace quillbench
