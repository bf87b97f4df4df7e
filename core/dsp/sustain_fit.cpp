#include "core/dsp/sustain_fit.hpp"

#include "core/support/contract.hpp"

#include <Eigen/Dense>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace quillbench {

namespace {

constexpr std::size_t kMost = HeterodyneBank::kMostPartials;
constexpr std::size_t kScales = 7;
// Sizes of a partial's own wandering, in cents.
constexpr std::array<double, kScales> kScale{0.06, 0.12, 0.25, 0.5, 1.0, 2.0, 6.0};
// How common they are before anything is heard: real partials scatter by 0.2 to 0.5 cent.
constexpr std::array<double, kScales> kCommon{0.10, 0.20, 0.30, 0.22, 0.10, 0.05, 0.03};
constexpr double kFloorHz = 0.05;   // certainty of one partial's mean frequency in the definition
constexpr double kSplitCents = 1.0; // typical splitting by polarisation: sets the pace of wandering
constexpr double kCent = std::numbers::ln2 / 1200.0;
constexpr double kDiffuse = 1e4; // radians²: the phase at the pluck is unknown
constexpr int kRounds = 8;
constexpr double kPseudoCount = 4.0;
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

Information filterTrack(const PhaseTrack& track, double scale, const Setting& setting) {
    const double n = track.n;
    const double hz = setting.base.partial(n);
    const double turn = 2.0 * std::numbers::pi * hz * kCent; // radians per second and cent
    const double pace = 2.0 * std::numbers::pi * hz * kCent * kSplitCents;
    const double slope = stiffnessSlope(setting.base, n);
    const double floorCents = kFloorHz / (hz * kCent);
    const double ownVariance = scale * scale + floorCents * floorCents;
    const double wanderVariance = scale * scale;

    // State: phase, constant offset (cents), wandering (cents); its covariance.
    Matrix p = Matrix::Zero();
    p(0, 0) = kDiffuse;
    p(1, 1) = ownVariance;
    p(2, 2) = wanderVariance;
    Eigen::Matrix<double, 3, 4> state = Eigen::Matrix<double, 3, 4>::Zero();
    Information information;
    double last = 0.0;
    bool started = false;
    for (const PhasePoint& point : track.points) {
        if (started) {
            const double step = point.t - last;
            const double keep = std::exp(-step * pace);
            Matrix f;
            f << 1.0, turn * step, turn * step * 0.5 * (1.0 + keep), 0.0, 1.0, 0.0, 0.0, 0.0, keep;
            state = f * state;
            p = f * p * f.transpose();
            const double fresh = wanderVariance * (1.0 - keep * keep);
            p(2, 2) += fresh;
            const double half = 0.5 * turn * step;
            p(0, 0) += half * half * fresh;
            p(0, 2) += half * fresh;
            p(2, 0) += half * fresh;
        }
        last = point.t;
        started = true;
        Eigen::RowVector4d seen;
        seen(0) = point.phase - 2.0 * std::numbers::pi * (hz - track.referenceHz) * point.t;
        seen(1) = turn * point.t;
        seen(2) = turn * slope * point.t;
        seen(3) = turn * (setting.energy->integral(point.t) - setting.sustainMean * point.t);
        const Eigen::RowVector4d surprise = seen - state.row(0);
        const double variance = p(0, 0) + point.variance;
        const Vector gain = p.col(0) / variance;
        state += gain * surprise;
        p -= gain * p.row(0);
        const Vector x = surprise.tail<3>().transpose();
        information.a += x * x.transpose() / variance;
        information.b += x * surprise(0) / variance;
        information.square += surprise(0) * surprise(0) / variance;
        information.logDeterminant += std::log(variance);
    }
    return information;
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
        const double sd = std::hypot(0.05, kFloorHz / (hz * kCent));
        const Eigen::Vector2d x(1.0, stiffnessSlope(base, decay.n));
        a += x * x.transpose() / (sd * sd);
        b += x * mean / (sd * sd);
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

} // namespace

SustainFit fitSustain(std::span<const PhaseTrack> tracks,
                      const EnergyModel& energy,
                      std::span<const PartialDecay> decays,
                      const StiffComb& base,
                      const StringPriors& priors) {
    EXPECTS(!tracks.empty() && tracks.size() <= kMost);
    const Setting setting{&energy, sustainMeanOf(energy, decays, base), base};
    std::array<std::array<Information, kScales>, kMost> all;
    for (std::size_t i = 0; i < tracks.size(); ++i) {
        for (std::size_t s = 0; s < kScales; ++s) {
            all[i][s] = filterTrack(tracks[i], kScale[s], setting);
        }
    }

    Matrix priorA = Matrix::Zero();
    Vector priorB = Vector::Zero();
    priorA(0, 0) = 1e-6;
    priorA(1, 1) = 1.0 / (priors.inharmonicityLnSd * priors.inharmonicityLnSd);
    priorB(1) = std::log(priors.inharmonicity / base.b) * priorA(1, 1);
    GlideMoments glide = glideMoments(0.0, 0.0, priors);

    std::array<double, kScales> common = kCommon;
    std::array<std::array<double, kScales>, kMost> share{};
    for (std::size_t i = 0; i < tracks.size(); ++i) {
        share[i] = common;
    }
    Matrix a;
    Vector b;
    Vector at = Vector::Zero();
    for (int round = 0; round < kRounds; ++round) {
        a = priorA;
        b = priorB;
        for (std::size_t i = 0; i < tracks.size(); ++i) {
            for (std::size_t s = 0; s < kScales; ++s) {
                a += share[i][s] * all[i][s].a;
                b += share[i][s] * all[i][s].b;
            }
        }
        // Glide: likelihood with pitch and ln B eliminated, then its prior.
        const Eigen::Matrix2d corner = a.topLeftCorner<2, 2>();
        const Eigen::Vector2d edge = a.block<2, 1>(0, 2);
        const Eigen::Matrix2d inverse = corner.inverse();
        const double precision = std::max(a(2, 2) - edge.dot(inverse * edge), 0.0);
        const double pull = b(2) - edge.dot(inverse * b.head<2>());
        glide = glideMoments(precision > 0.0 ? pull / precision : 0.0, precision, priors);
        at.head<2>() = inverse * (b.head<2>() - edge * glide.mean);
        at(2) = glide.mean;
        std::array<double, kScales> seen{};
        for (std::size_t i = 0; i < tracks.size(); ++i) {
            std::array<double, kScales> logs{};
            double best = -1e300;
            for (std::size_t s = 0; s < kScales; ++s) {
                logs[s] = std::log(common[s]) + all[i][s].logLikelihood(at);
                best = std::max(best, logs[s]);
            }
            double sum = 0.0;
            for (std::size_t s = 0; s < kScales; ++s) {
                share[i][s] = std::exp(logs[s] - best);
                sum += share[i][s];
            }
            for (std::size_t s = 0; s < kScales; ++s) {
                share[i][s] /= sum;
                seen[s] += share[i][s];
            }
        }
        for (std::size_t s = 0; s < kScales; ++s) {
            common[s] = (kPseudoCount * kCommon[s] + seen[s]) /
                        (kPseudoCount + static_cast<double>(tracks.size()));
        }
    }

    const Eigen::Matrix2d inverse = a.topLeftCorner<2, 2>().inverse();
    const Eigen::Vector2d perGlide = -inverse * a.block<2, 1>(0, 2);
    SustainFit fit;
    fit.pitchHz = base.pitch() * std::exp(at(0) * kCent);
    fit.pitchSdCents = std::sqrt(inverse(0, 0) + perGlide(0) * perGlide(0) * glide.variance);
    fit.comb.b = base.b * std::exp(std::clamp(at(1), -3.0, 3.0));
    fit.comb.f0 = fit.pitchHz / std::sqrt(1.0 + fit.comb.b);
    fit.lnBSd = std::sqrt(inverse(1, 1) + perGlide(1) * perGlide(1) * glide.variance);
    fit.glideCents = glide.mean;
    fit.startCents = glide.mean * (1.0 - setting.sustainMean);
    fit.startSdCents = std::sqrt(glide.variance) * (1.0 - setting.sustainMean);
    double scatter = 0.0;
    for (std::size_t s = 0; s < kScales; ++s) {
        scatter += common[s] * std::log(kScale[s]);
    }
    fit.scatterCents = std::exp(scatter);
    for (std::size_t i = 0; i < tracks.size(); ++i) {
        double size = 0.0;
        for (std::size_t s = 0; s < kScales; ++s) {
            size += share[i][s] * std::log(kScale[s]);
        }
        fit.trust[i] = fit.scatterCents / std::exp(size);
    }
    return fit;
}

} // namespace quillbench
