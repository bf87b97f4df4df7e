#include "core/dsp/sustain_fit.hpp"

#include "core/support/contract.hpp"

#include <Eigen/Dense>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>

namespace quillbench {

namespace {

constexpr std::size_t kMost = HeterodyneBank::kMostPartials;
constexpr std::size_t kSizes = 9;
using Sizes = std::array<double, kSizes>;
// How far the partials of a string wander, in cents, and how common that is before anything is heard.
constexpr Sizes kWander{0.03, 0.06, 0.12, 0.25, 0.5, 1.0, 2.0, 4.0, 8.0};
constexpr Sizes kWanderCommon{0.08, 0.14, 0.22, 0.22, 0.17, 0.10, 0.04, 0.02, 0.01};
// How far their mean frequencies lie off the comb, in multiples of their certainty in the definition.
constexpr Sizes kOffset{0.5, 1.0, 2.0, 4.0, 8.0, 16.0, 32.0, 64.0, 128.0};
constexpr Sizes kOffsetCommon{0.06, 0.12, 0.20, 0.22, 0.19, 0.13, 0.05, 0.02, 0.01};
// One partial against its string: steps along those sizes, and how common they are.
constexpr std::size_t kSteps = 6;
constexpr std::array<double, kSteps> kStepCommon{0.15, 0.48, 0.22, 0.09, 0.04, 0.02};
constexpr double kCertaintyHz =
    0.05; // certainty of one partial's mean frequency in the definition:
constexpr double kCertaintyCents = 0.05; // both, added as variances
constexpr double kSplitCents = 1.0; // typical splitting by polarisation: sets the pace of wandering
constexpr double kCent = std::numbers::ln2 / 1200.0;
constexpr double kDiffuse = 100.0;      // radians²: the phase at the pluck is unknown
constexpr double kOffsetRoom = 30.0;    // cents: a partial's own frequency is unknown
constexpr double kLeastVariance = 1e-6; // cents²
constexpr double kSpacing = 0.04;       // seconds between foretold instants
constexpr int kRounds = 8;
constexpr double kDisagreement = 0.5;
constexpr double kInflation = 1.4;        // of the sd: what single partials' models leave out
constexpr double kDefinitionFloor = 0.06; // cents
constexpr double kCommonWander = 0.12;    // cents, where nothing was heard yet
constexpr double kGlideShape = 0.3;       // of the glide that is still to come
constexpr double kDefinition =
    0.4; // of the scatter's share: other ways to weigh the partials differ so much
constexpr double kSustainFrom = 0.10; // seconds after the pluck, by definition

using Vector = Eigen::Vector3d; // pitch in cents, ln B, glide in cents
using Matrix = Eigen::Matrix3d;

/// Gaussian likelihood of (pitch, ln B, glide).
struct Information {
    Matrix a = Matrix::Zero();
    Vector b = Vector::Zero();
    double square = 0.0;
    double logDeterminant = 0.0;

    void add(const Vector& x, double value, double variance) {
        a += x * x.transpose() / variance;
        b += x * (value / variance);
        square += value * value / variance;
        logDeterminant += std::log(variance);
    }

    [[nodiscard]] double logLikelihood(const Vector& at) const {
        return -0.5 * (logDeterminant + square - 2.0 * b.dot(at) + at.dot(a * at));
    }
};

/// What one partial's phase says, for one size of wandering: its mean frequency over the time that the
/// definition names is value + glide·perGlide cents off the base comb, and how well the phase fits by glide.
struct MeanFrequency {
    double value = 0.0;
    double perGlide = 0.0;
    double variance = 0.0;
    double slope = 0.0; ///< ln-B slope of this partial, cents
    Information fit;
};

struct Setting {
    const EnergyModel* energy;
    StiffComb base;
};

/// Cents that partial n gains per unit of ln B while the pitch stays.
double stiffnessSlope(const StiffComb& comb, double n) {
    const auto part = [&](double k) { return comb.b * k * k / (1.0 + comb.b * k * k); };
    return 0.5 / kCent * (part(n) - part(1.0));
}

/// State of one partial: phase, constant offset, wandering, and the least-squares slope of the phase so far.
/// Column 0 of the mean holds what was seen, column 1 what one cent of glide does.
class PartialFilter {
public:
    PartialFilter(double turn, double wander) : turn_(turn), wander_(wander * wander) {
        p_.diagonal() << kDiffuse, kOffsetRoom * kOffsetRoom, wander_, 0.0;
    }

    void advance(double step) {
        const double keep = std::exp(-step * turn_ * kSplitCents);
        Matrix4 f = Matrix4::Identity();
        f(0, 1) = turn_ * step;
        f(0, 2) = turn_ * step * 0.5 * (1.0 + keep);
        f(2, 2) = keep;
        mean_ = f * mean_;
        p_ = f * p_ * f.transpose();
        const double fresh = wander_ * (1.0 - keep * keep);
        const double half = 0.5 * turn_ * step;
        p_(0, 0) += half * half * fresh;
        p_(0, 2) += half * fresh;
        p_(2, 0) += half * fresh;
        p_(2, 2) += fresh;
    }

    /// A measured phase and what a cent of glide adds to it.
    void see(double phase, double glide, double variance, Information& fit) {
        const Eigen::RowVector2d surprise = Eigen::RowVector2d(phase, glide) - mean_.row(0);
        const double spread = p_(0, 0) + variance;
        const Eigen::Vector4d gain = p_.col(0) / spread;
        mean_ += gain * surprise;
        p_ -= spread * gain * gain.transpose();
        fit.add(Vector(0.0, 0.0, surprise(1)), surprise(0), spread);
    }

    /// Counts the phase of this instant into the slope.
    void count(double weight) {
        mean_.row(3) += weight * mean_.row(0);
        p_.row(3) += weight * p_.row(0);
        p_.col(3) += weight * p_.col(0);
    }

    [[nodiscard]] double seen() const { return mean_(3, 0); }

    [[nodiscard]] double ofGlide() const { return mean_(3, 1); }

    [[nodiscard]] double variance() const { return p_(3, 3); }

private:
    using Matrix4 = Eigen::Matrix4d;
    double turn_;
    double wander_;
    Eigen::Matrix<double, 4, 2> mean_ = Eigen::Matrix<double, 4, 2>::Zero();
    Matrix4 p_ = Matrix4::Zero();
};

/// An instant of the slope's time: heard (with its point) or foretold.
struct Instant {
    double t = 0;
    const PhasePoint* point = nullptr;
    double weight = 0; ///< in the least-squares slope
};

using Instants = FixedVector<Instant, 160>;

Instants instantsOf(const PhaseTrack& track, double end) {
    Instants instants;
    for (const PhasePoint& point : track.points) {
        instants.tryPush({point.t, &point, 0.0});
    }
    const double last = track.points[track.points.size() - 1].t;
    const double spacing =
        track.points.size() > 1
            ? (last - track.points[0].t) / static_cast<double>(track.points.size() - 1)
            : kSpacing;
    const double begin = std::max(kSustainFrom, track.points[0].t);
    end = std::max(end, begin + 3.5 * spacing); // three instants at least
    for (double t = last + spacing; t <= end; t += spacing) {
        instants.tryPush({t, nullptr, 0.0});
    }
    double count = 0.0;
    double sum = 0.0;
    double squares = 0.0;
    const auto inside = [&](double t) { return t >= kSustainFrom && t <= end; };
    for (const Instant& instant : instants) {
        if (inside(instant.t)) {
            count += 1.0;
            sum += instant.t;
            squares += instant.t * instant.t;
        }
    }
    const double middle = sum / count;
    for (Instant& instant : instants) {
        instant.weight = inside(instant.t) ? (instant.t - middle) / (squares - middle * sum) : 0.0;
    }
    return instants;
}

MeanFrequency
meanFrequency(const PhaseTrack& track, double end, double wander, const Setting& setting) {
    const double hz = setting.base.partial(track.n);
    const double turn = 2.0 * std::numbers::pi * hz * kCent; // radians per second and cent
    PartialFilter filter(turn, wander);
    MeanFrequency result;
    result.slope = stiffnessSlope(setting.base, track.n);
    const Instants instants = instantsOf(track, end);
    double last = instants[0].t;
    double glideSlope = 0.0;
    for (const Instant& instant : instants) {
        filter.advance(instant.t - last);
        last = instant.t;
        const double glide = turn * setting.energy->integral(instant.t);
        if (instant.point != nullptr) {
            const double phase = instant.point->phase -
                                 2.0 * std::numbers::pi * (hz - track.referenceHz) * instant.t;
            filter.see(phase, glide, instant.point->variance, result.fit);
        }
        filter.count(instant.weight);
        glideSlope += instant.weight * glide;
    }
    // The slope of the whole phase: what is not glide, with the glide put back.
    result.value = filter.seen() / turn;
    result.perGlide = (glideSlope - filter.ofGlide()) / turn;
    result.variance = std::max(filter.variance() / (turn * turn), kLeastVariance);
    return result;
}

/// The partial's word on the string, where its mean frequency lies this far (variance, cents²) off the comb.
Information withOffset(const MeanFrequency& partial, double variance) {
    Information result = partial.fit;
    result.add(
        Vector(1.0, partial.slope, -partial.perGlide), partial.value, partial.variance + variance);
    return result;
}

double definitionVariance(double hz) {
    const double cents = kCertaintyHz / (hz * kCent);
    return cents * cents + kCertaintyCents * kCertaintyCents;
}

/// When a partial's mean frequency ends: fallen 40 dB, or 50 dB under the loudest partial's beginning.
double endOf(const PartialDecay& decay, double loudest) {
    const double floor = std::max(1e-4, 1e-5 * loudest / decay.power);
    const double seconds = -0.5 * std::log(std::min(floor, 0.5)) / decay.rate;
    return std::clamp(seconds, kSustainFrom + 0.12, EnergyModel::kEnd);
}

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

using Table = std::array<Sizes, kSizes>; // [wander][offset]

/// What one partial says for every size of wandering and offset, and its belief in each.
struct Mixture {
    std::array<MeanFrequency, kSizes> byWander;
    double offsetVariance = 0; ///< of the definition
    Table share{};

    [[nodiscard]] Information at(std::size_t wander, std::size_t offset) const {
        return withOffset(byWander[wander], offsetVariance * kOffset[offset] * kOffset[offset]);
    }
};

using Mixtures = std::array<Mixture, kMost>;

/// Size `step` places from the string's own; the last sizes stand for all beyond.
std::size_t stepped(std::size_t size, std::size_t step) {
    const std::size_t up = size + step;
    return up == 0 ? 0 : std::min(up - 1, kSizes - 1);
}

/// Likelihood of each pair of sizes for one partial, scaled to a largest of 1; the scale's logarithm.
double likelihoods(const Mixture& mixture, const Vector& at, Table& table) {
    double best = -1e300;
    for (std::size_t w = 0; w < kSizes; ++w) {
        for (std::size_t o = 0; o < kSizes; ++o) {
            table[w][o] = mixture.at(w, o).logLikelihood(at);
            best = std::max(best, table[w][o]);
        }
    }
    for (Sizes& row : table) {
        for (double& value : row) {
            value = std::exp(value - best);
        }
    }
    return best;
}

/// Likelihood of a partial whose string has these sizes.
double underString(const Table& table, std::size_t wander, std::size_t offset) {
    double sum = 0.0;
    for (std::size_t i = 0; i < kSteps; ++i) {
        for (std::size_t k = 0; k < kSteps; ++k) {
            sum += kStepCommon[i] * kStepCommon[k] * table[stepped(wander, i)][stepped(offset, k)];
        }
    }
    return std::max(sum, 1e-300);
}

/// Belief in the string's sizes at a trial value of the parameters.
Table stringBelief(std::span<const Table> tables) {
    Table belief{};
    double best = -1e300;
    for (std::size_t w = 0; w < kSizes; ++w) {
        for (std::size_t o = 0; o < kSizes; ++o) {
            double sum = std::log(kWanderCommon[w] * kOffsetCommon[o]);
            for (const Table& table : tables) {
                sum += std::log(underString(table, w, o));
            }
            belief[w][o] = sum;
            best = std::max(best, sum);
        }
    }
    double total = 0.0;
    for (Sizes& row : belief) {
        for (double& value : row) {
            value = std::exp(value - best);
            total += value;
        }
    }
    for (Sizes& row : belief) {
        for (double& value : row) {
            value /= total;
        }
    }
    return belief;
}

/// Each partial's belief in its own sizes, given the string's.
void share(Mixture& mixture, const Table& table, const Table& belief) {
    mixture.share = {};
    for (std::size_t w = 0; w < kSizes; ++w) {
        for (std::size_t o = 0; o < kSizes; ++o) {
            if (belief[w][o] < 1e-4) {
                continue;
            }
            const double scale = belief[w][o] / underString(table, w, o);
            for (std::size_t i = 0; i < kSteps; ++i) {
                for (std::size_t k = 0; k < kSteps; ++k) {
                    const std::size_t ww = stepped(w, i);
                    const std::size_t oo = stepped(o, k);
                    mixture.share[ww][oo] +=
                        scale * kStepCommon[i] * kStepCommon[k] * table[ww][oo];
                }
            }
        }
    }
}

/// Mean logarithms of wandering and offset.
std::pair<double, double> meanLogs(const Table& shares) {
    double wander = 0.0;
    double offset = 0.0;
    for (std::size_t w = 0; w < kSizes; ++w) {
        for (std::size_t o = 0; o < kSizes; ++o) {
            wander += shares[w][o] * std::log(kWander[w]);
            offset += shares[w][o] * std::log(kOffset[o]);
        }
    }
    return {wander, offset};
}

/// Belief in one partial's mean frequency over the definition's time: own data, helped by the comb where thin.
struct PartialBelief {
    double mean = 0.0;     ///< cents off the base comb
    double perGlide = 0.0; ///< cents per cent of glide
    double lean = 0.0;     ///< how much of it is the comb's
    double variance = 0.0; ///< cents², without the comb's own
    Eigen::Vector2d x;     ///< of pitch and ln B
};

PartialBelief beliefIn(const Mixture& mixture, const Vector& at, const Eigen::Vector2d& perGlide) {
    PartialBelief belief;
    belief.x = Eigen::Vector2d(1.0, mixture.byWander[0].slope);
    const double comb = belief.x.dot(at.head<2>());
    const double combPerGlide = belief.x.dot(perGlide);
    for (std::size_t w = 0; w < kSizes; ++w) {
        const MeanFrequency& own = mixture.byWander[w];
        for (std::size_t o = 0; o < kSizes; ++o) {
            const double off = mixture.offsetVariance * kOffset[o] * kOffset[o];
            const double lean = own.variance / (own.variance + off);
            const double part = mixture.share[w][o];
            belief.mean += part * (lean * comb + (1.0 - lean) * (own.value + at(2) * own.perGlide));
            belief.perGlide += part * (lean * combPerGlide + (1.0 - lean) * own.perGlide);
            belief.lean += part * lean;
            belief.variance += part * lean * off;
        }
    }
    return belief;
}

/// The definition's own fit: weights by its certainties, Tukey's biweight beyond four times the spread.
struct DefinitionFit {
    Eigen::Vector2d at = Eigen::Vector2d::Zero(); ///< pitch and ln B off the base
    std::array<double, kMost> weight{};           ///< of each partial in the pitch
    double scatter = 0.0; ///< variance of the pitch from the residuals, cents²
};

DefinitionFit fitByDefinition(std::span<const PartialBelief> beliefs,
                              std::span<const Mixture> mixtures) {
    constexpr int kSteps = 8;
    DefinitionFit fit;
    double spread = 1e3;
    std::array<double, kMost> sizes{};
    Eigen::Matrix2d inverse;
    for (int step = 0; step < kSteps; ++step) {
        Eigen::Matrix2d a = Eigen::Matrix2d::Zero();
        Eigen::Vector2d b = Eigen::Vector2d::Zero();
        a(1, 1) = 1.0; // keeps one or two partials determined
        std::array<double, kMost> weights{};
        for (std::size_t i = 0; i < beliefs.size(); ++i) {
            const double sd = std::sqrt(mixtures[i].offsetVariance + beliefs[i].variance);
            const double u = (beliefs[i].mean - beliefs[i].x.dot(fit.at)) / (4.0 * spread * sd);
            const double robust = std::abs(u) < 1.0 ? (1.0 - u * u) * (1.0 - u * u) : 0.0;
            weights[i] = robust / (sd * sd);
            a += weights[i] * beliefs[i].x * beliefs[i].x.transpose();
            b += weights[i] * beliefs[i].mean * beliefs[i].x;
        }
        inverse = a.inverse();
        fit.at = inverse * b;
        for (std::size_t i = 0; i < beliefs.size(); ++i) {
            const double sd = std::sqrt(mixtures[i].offsetVariance + beliefs[i].variance);
            fit.weight[i] = weights[i] * inverse.row(0).dot(beliefs[i].x);
            sizes[i] = std::abs(beliefs[i].mean - beliefs[i].x.dot(fit.at)) / sd;
        }
        const auto middle = sizes.begin() + static_cast<std::ptrdiff_t>(beliefs.size() / 2);
        std::nth_element(
            sizes.begin(), middle, sizes.begin() + static_cast<std::ptrdiff_t>(beliefs.size()));
        spread = std::max(1.0, 1.4826 * *middle);
    }
    fit.scatter = inverse(0, 0) * spread * spread;
    return fit;
}

} // namespace

SustainFit fitSustain(std::span<const PhaseTrack> tracks,
                      const EnergyModel& energy,
                      std::span<const PartialDecay> decays,
                      const StiffComb& base,
                      const StringPriors& priors) {
    EXPECTS(!tracks.empty() && tracks.size() <= kMost);
    const Setting setting{&energy, base};
    double loudest = 0.0;
    for (const PartialDecay& decay : decays) {
        loudest = std::max(loudest, decay.power);
    }
    Mixtures all;
    const std::span<Mixture> mixtures(all.data(), tracks.size());
    for (std::size_t i = 0; i < tracks.size(); ++i) {
        for (std::size_t w = 0; w < kSizes; ++w) {
            all[i].byWander[w] =
                meanFrequency(tracks[i], endOf(decays[i], loudest), kWander[w], setting);
        }
        all[i].share[3][4] =
            1.0; // a middling start, so that no few partials that happen to agree win
        all[i].offsetVariance = definitionVariance(base.partial(tracks[i].n));
    }

    Matrix priorA = Matrix::Zero();
    Vector priorB = Vector::Zero();
    priorA(0, 0) = 1e-6;
    priorA(1, 1) = 1.0 / (priors.inharmonicityLnSd * priors.inharmonicityLnSd);
    priorB(1) = std::log(priors.inharmonicity / base.b) * priorA(1, 1);
    GlideMoments glide = glideMoments(0.0, 0.0, priors);
    std::array<Table, kMost> tables;
    Table belief{};
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
        for (std::size_t i = 0; i < tracks.size(); ++i) {
            likelihoods(mixtures[i], at, tables[i]);
        }
        belief = stringBelief({tables.data(), tracks.size()});
        for (std::size_t i = 0; i < tracks.size(); ++i) {
            share(mixtures[i], tables[i], belief);
        }
    }

    const Eigen::Matrix2d inverse = a.topLeftCorner<2, 2>().inverse();
    const Eigen::Vector2d perGlide = -inverse * a.block<2, 1>(0, 2);
    std::array<PartialBelief, kMost> beliefs;
    for (std::size_t i = 0; i < tracks.size(); ++i) {
        beliefs[i] = beliefIn(mixtures[i], at, perGlide);
    }
    const DefinitionFit defined = fitByDefinition({beliefs.data(), tracks.size()}, mixtures);
    double variance = 0.0;
    double glideSlope = 0.0;
    Eigen::Vector2d shared = Eigen::Vector2d::Zero();
    for (std::size_t i = 0; i < tracks.size(); ++i) {
        variance += defined.weight[i] * defined.weight[i] * beliefs[i].variance;
        glideSlope += defined.weight[i] * beliefs[i].perGlide;
        shared += defined.weight[i] * beliefs[i].lean * beliefs[i].x;
    }
    variance += shared.dot(inverse * shared) + glideSlope * glideSlope * glide.variance +
                kDefinition * kDefinition * defined.scatter;
    SustainFit fit;
    // Two ways to weigh the partials: by the definition, and by what each has shown of itself. Where they
    // part, neither is sure.
    const double apart = defined.at(0) - at(0);
    variance += kDisagreement * apart * apart;
    variance *= kInflation * kInflation;
    // What every partial shares is in no scatter: the glide's shape, both directions of motion together.
    const double heard = heardUntil(tracks);
    const double ahead = energy.slopeMean(kSustainFrom, std::max(heard, kSustainFrom + 0.05)) -
                         sustainMeanOf(energy);
    const double missing = 1.0 - heard / EnergyModel::kEnd;
    variance += kDefinitionFloor * kDefinitionFloor + std::pow(kCommonWander * missing, 2.0) +
                std::pow(kGlideShape * glide.mean * ahead, 2.0);
    fit.pitchHz = base.pitch() * std::exp((defined.at(0) - 0.5 * apart) * kCent);
    fit.pitchSdCents = std::sqrt(variance);
    fit.comb.b = base.b * std::exp(std::clamp(defined.at(1), -3.0, 3.0));
    fit.comb.f0 = fit.pitchHz / std::sqrt(1.0 + fit.comb.b);
    fit.lnBSd = std::sqrt(inverse(1, 1) + perGlide(1) * perGlide(1) * glide.variance);
    fit.glideCents = glide.mean;
    const double sharper = 1.0 - sustainMeanOf(energy);
    fit.startCents = glide.mean * sharper;
    fit.startSdCents = std::sqrt(glide.variance) * sharper;
    const auto [wander, usual] = meanLogs(belief);
    fit.scatterCents = std::exp(wander);
    for (std::size_t i = 0; i < tracks.size(); ++i) {
        fit.trust[i] = std::exp(usual - meanLogs(all[i].share).second);
    }
    return fit;
}

} // namespace quillbench
