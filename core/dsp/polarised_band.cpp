#include "core/dsp/polarised_band.hpp"

#include "core/dsp/constants.hpp"
#include "core/support/random.hpp"

#include <Eigen/Cholesky>
#include <Eigen/LU>

#include <algorithm>
#include <cmath>
#include <complex>
#include <limits>
#include <optional>

namespace quillbench {

namespace {

constexpr int kPerPartial = 4; // hz, ln decay, split, ln slower
constexpr int kDraws = 24;
constexpr double kPhaseStep =
    0.004; // s between points of the phase whose slope is the mean frequency
constexpr double kHeardUntil = 1e-4; // −40 dB
constexpr double kOtherwise = 1.2;   // another pluck moves the string a little otherwise

class PolarisedFit {
public:
    PolarisedFit(const std::vector<double>& times,
                 const Eigen::VectorXcd& envelope,
                 const std::vector<PolarisedPartial>& partials,
                 const PolarisedBandPlan& plan)
        : times_(times),
          envelope_(envelope),
          partials_(partials),
          plan_(plan) {
        for (const PolarisedPartial& partial : partials_) {
            auto& warped = warped_.emplace_back();
            for (const double t : times_) {
                warped.push_back(partial.warp(t));
            }
            auto& along = warpedMean_.emplace_back();
            along.reserve(static_cast<std::size_t>(meanSteps()) + 1);
            for (int i = 0; i <= meanSteps(); ++i) {
                along.push_back(partial.warp(meanTime(i)));
            }
        }
        energy_ = std::max(envelope_.squaredNorm(), 1e-30);
        variance_ = 1e-3 * energy_ / static_cast<double>(times_.size());
    }

    [[nodiscard]] Eigen::VectorXd start(unsigned signs) const {
        Eigen::VectorXd x(kPerPartial * count());
        for (Eigen::Index k = 0; k < count(); ++k) {
            const PolarisedPartial& p = partials_[static_cast<std::size_t>(k)];
            const double sign = ((signs >> static_cast<unsigned>(k)) & 1U) != 0U ? 1.0 : -1.0;
            x(kPerPartial * k) = p.hz;
            x(kPerPartial * k + 1) = p.lnDecay;
            x(kPerPartial * k + 2) =
                p.splitKnown ? p.splitHz : p.splitHz + sign * 0.7 * p.splitDeviation;
            x(kPerPartial * k + 3) = p.lnSlower;
        }
        return x;
    }

    /// Levenberg–Marquardt from x; returns the negative log posterior reached.
    double refine(Eigen::VectorXd& x, int steps) {
        Eigen::VectorXd r = residual(x);
        double damping = 1e-2;
        for (int step = 0; step < steps; ++step) {
            const Eigen::MatrixXd j = jacobian(x, r);
            const Eigen::MatrixXd h = j.transpose() * j;
            const Eigen::VectorXd g = j.transpose() * r;
            bool better = false;
            double gain = 0.0;
            for (int attempt = 0; attempt < 5 && !better; ++attempt) {
                Eigen::MatrixXd damped = h;
                damped.diagonal() *= 1.0 + damping;
                const Eigen::VectorXd next = x - damped.ldlt().solve(g);
                const Eigen::VectorXd reached = residual(next);
                gain = 0.5 * (r.squaredNorm() - reached.squaredNorm());
                if (gain > 0.0) {
                    better = true;
                    x = next;
                    r = reached;
                    damping = std::max(damping / 5.0, 1e-6);
                } else {
                    damping = damping * 5.0 + 1e-3;
                }
            }
            if (!better || gain < 1e-3) {
                break;
            }
        }
        return 0.5 * r.squaredNorm();
    }

    /// The noise that the residual at x shows.
    void setVariance(const Eigen::VectorXd& x) {
        const Eigen::MatrixXcd e = basis(x);
        const Eigen::VectorXcd c = amplitudes(e);
        const double left = (envelope_ - e * c).squaredNorm();
        variance_ = plan_.frameCorrelation * (left + plan_.modelFloor * energy_) /
                    (2.0 * static_cast<double>(times_.size()));
    }

    [[nodiscard]] Eigen::MatrixXd information(const Eigen::VectorXd& x) const {
        const Eigen::MatrixXd j = jacobian(x, residual(x));
        return j.transpose() * j;
    }

    [[nodiscard]] std::vector<double> means(const Eigen::VectorXd& x) const;
    [[nodiscard]] std::vector<double> fragility(const Eigen::VectorXd& x) const;
    [[nodiscard]] std::vector<double> levels(const Eigen::VectorXd& x) const;
    [[nodiscard]] std::vector<PolarisedPartial> afterwards(const Eigen::VectorXd& x) const;

    [[nodiscard]] Eigen::Index count() const { return static_cast<Eigen::Index>(partials_.size()); }

private:
    [[nodiscard]] int meanSteps() const {
        return static_cast<int>((plan_.to - plan_.from) / kPhaseStep);
    }

    [[nodiscard]] double meanTime(int step) const { return plan_.from + step * kPhaseStep; }

    [[nodiscard]] std::complex<double>
    term(const Eigen::VectorXd& x, Eigen::Index k, int second, double t, double warped) const {
        const PolarisedPartial& p = partials_[static_cast<std::size_t>(k)];
        const double hz = x(kPerPartial * k) + second * x(kPerPartial * k + 2);
        const double decay = std::exp(x(kPerPartial * k + 1) + second * x(kPerPartial * k + 3));
        return std::polar(std::exp(-decay * (t - p.pluck)),
                          kTwoPi * (hz * warped - plan_.centre * t));
    }

    [[nodiscard]] std::vector<std::complex<double>> motionOf(const Eigen::VectorXd& x,
                                                             const Eigen::VectorXcd& amplitudes,
                                                             Eigen::Index k,
                                                             double secondTimes) const;

    [[nodiscard]] Eigen::MatrixXcd basis(const Eigen::VectorXd& x) const {
        const auto frames = static_cast<Eigen::Index>(times_.size());
        Eigen::MatrixXcd e(frames, 2 * count());
        for (Eigen::Index k = 0; k < count(); ++k) {
            for (Eigen::Index i = 0; i < frames; ++i) {
                const auto at = static_cast<std::size_t>(i);
                const double warped = warped_[static_cast<std::size_t>(k)][at];
                e(i, 2 * k) = term(x, k, 0, times_[at], warped);
                e(i, 2 * k + 1) = term(x, k, 1, times_[at], warped);
            }
        }
        return e;
    }

    /// Amplitudes with a Gaussian prior on the second polarisation, sized by the first.
    [[nodiscard]] Eigen::VectorXcd amplitudes(const Eigen::MatrixXcd& e) const {
        Eigen::MatrixXcd gram = e.adjoint() * e;
        const double whisper = 1e-7 * gram.diagonal().real().maxCoeff() + 1e-30;
        gram.diagonal().array() += whisper;
        const Eigen::VectorXcd right = e.adjoint() * envelope_;
        for (Eigen::Index k = 0; k < count(); ++k) {
            gram(2 * k + 1, 2 * k + 1) += variance_ / secondVariance(k);
        }
        return gram.ldlt().solve(right);
    }

    [[nodiscard]] double secondVariance(Eigen::Index k) const {
        const PolarisedPartial& p = partials_[static_cast<std::size_t>(k)];
        const double loudest =
            envelope_.cwiseAbs2().head(std::max<Eigen::Index>(1, envelope_.size() / 4)).mean();
        return 0.5 * p.secondShare * p.secondShare * loudest + 1e-30;
    }

    [[nodiscard]] Eigen::VectorXd residual(const Eigen::VectorXd& x) const {
        const Eigen::MatrixXcd e = basis(x);
        const Eigen::VectorXcd c = amplitudes(e);
        const Eigen::VectorXcd left = envelope_ - e * c;
        const auto frames = left.size();
        Eigen::VectorXd r(2 * frames + 6 * count());
        const double scale = 1.0 / std::sqrt(variance_);
        r.head(frames) = scale * left.real();
        r.segment(frames, frames) = scale * left.imag();
        for (Eigen::Index k = 0; k < count(); ++k) {
            const PolarisedPartial& p = partials_[static_cast<std::size_t>(k)];
            const Eigen::Index at = 2 * frames + 6 * k;
            r(at) = (x(kPerPartial * k) - p.hz) / p.hzDeviation;
            r(at + 1) = (x(kPerPartial * k + 1) - p.lnDecay) / p.lnDecayDeviation;
            r(at + 2) = (x(kPerPartial * k + 2) - p.splitHz) / p.splitDeviation;
            r(at + 3) = (x(kPerPartial * k + 3) - p.lnSlower) / p.lnSlowerDeviation;
            const double size = 1.0 / std::sqrt(secondVariance(k));
            r(at + 4) = size * c(2 * k + 1).real();
            r(at + 5) = size * c(2 * k + 1).imag();
        }
        return r;
    }

    [[nodiscard]] Eigen::MatrixXd jacobian(const Eigen::VectorXd& x,
                                           const Eigen::VectorXd& r) const {
        Eigen::MatrixXd j(r.size(), x.size());
        for (Eigen::Index i = 0; i < x.size(); ++i) {
            const double h = i % kPerPartial == 0 || i % kPerPartial == 2 ? 1e-4 : 1e-3;
            Eigen::VectorXd moved = x;
            moved(i) += h;
            j.col(i) = (residual(moved) - r) / h;
        }
        return j;
    }

    const std::vector<double>& times_;
    const Eigen::VectorXcd& envelope_;
    const std::vector<PolarisedPartial>& partials_;
    PolarisedBandPlan plan_;
    std::vector<std::vector<double>> warped_; ///< at the frames
    std::vector<std::vector<double>>
        warpedMean_; ///< where the phase is followed for its mean slope
    double energy_ = 1.0;
    double variance_ = 1.0;
};

std::vector<double> PolarisedFit::levels(const Eigen::VectorXd& x) const {
    const Eigen::VectorXcd c = amplitudes(basis(x));
    std::vector<double> result;
    for (Eigen::Index k = 0; k < count(); ++k) {
        result.push_back(std::abs(c(2 * k)));
    }
    return result;
}

std::vector<PolarisedPartial> PolarisedFit::afterwards(const Eigen::VectorXd& x) const {
    const Eigen::MatrixXd covariance = information(x).inverse();
    const Eigen::VectorXcd c = amplitudes(basis(x));
    std::vector<PolarisedPartial> result = partials_;
    for (Eigen::Index k = 0; k < count(); ++k) {
        PolarisedPartial& p = result[static_cast<std::size_t>(k)];
        const Eigen::Index at = kPerPartial * k;
        p.hz = x(at);
        p.hzDeviation = std::sqrt(covariance(at, at));
        p.lnDecay = x(at + 1);
        p.lnDecayDeviation = std::sqrt(covariance(at + 1, at + 1));
        p.splitHz = x(at + 2);
        p.splitDeviation = std::sqrt(covariance(at + 2, at + 2));
        p.lnSlower = x(at + 3);
        p.lnSlowerDeviation = std::sqrt(covariance(at + 3, at + 3));
        p.secondShare = std::abs(c(2 * k + 1)) / std::max(std::abs(c(2 * k)), 1e-12);
    }
    return result;
}

/// How many points of a phase count: until the power, smoothed so that a passing null does not end it, has fallen to
/// `fallen` of what it was.
std::size_t countedPoints(const std::vector<std::complex<double>>& motion, double fallen) {
    constexpr auto kSmooth = static_cast<std::size_t>(0.1 / kPhaseStep);
    double first = 0.0;
    double sum = 0.0;
    for (std::size_t i = 0; i < std::min(kSmooth, motion.size()); ++i) {
        sum += std::norm(motion[i]);
    }
    for (std::size_t i = 0; i < motion.size(); ++i) {
        const std::size_t width = std::min(kSmooth, motion.size() - i);
        const double mean = sum / static_cast<double>(width);
        first = i == 0 ? mean : first;
        if (mean < fallen * first) {
            return i;
        }
        sum -= std::norm(motion[i]);
        sum += i + kSmooth < motion.size() ? std::norm(motion[i + kSmooth]) : 0.0;
    }
    return motion.size();
}

/// Least-squares slope of the phase, in turns per second; nothing where it is heard too briefly.
std::optional<double> meanTurn(const std::vector<std::complex<double>>& motion, double fallen) {
    constexpr std::size_t kFewest = 6;
    const std::size_t count = countedPoints(motion, fallen);
    if (count < kFewest) {
        return std::nullopt;
    }
    const double middle = 0.5 * static_cast<double>(count - 1);
    double phase = 0.0;
    double top = 0.0;
    double bottom = 0.0;
    for (std::size_t i = 0; i < count; ++i) {
        phase += i == 0 ? 0.0 : std::arg(motion[i] * std::conj(motion[i - 1]));
        const double x = static_cast<double>(i) - middle;
        top += x * phase;
        bottom += x * x;
    }
    return top / bottom / kPhaseStep / kTwoPi;
}

std::vector<std::complex<double>> PolarisedFit::motionOf(const Eigen::VectorXd& x,
                                                         const Eigen::VectorXcd& amplitudes,
                                                         Eigen::Index k,
                                                         double secondTimes) const {
    std::vector<std::complex<double>> motion;
    motion.reserve(static_cast<std::size_t>(meanSteps()) + 1);
    for (int i = 0; i <= meanSteps(); ++i) {
        const double t = meanTime(i);
        const double warped = warpedMean_[static_cast<std::size_t>(k)][static_cast<std::size_t>(i)];
        motion.push_back(amplitudes(2 * k) * term(x, k, 0, t, warped) +
                         secondTimes * amplitudes(2 * k + 1) * term(x, k, 1, t, warped));
    }
    return motion;
}

std::vector<double> PolarisedFit::means(const Eigen::VectorXd& x) const {
    const Eigen::VectorXcd c = amplitudes(basis(x));
    std::vector<double> result;
    for (Eigen::Index k = 0; k < count(); ++k) {
        const auto turn = meanTurn(motionOf(x, c, k, 1.0), kHeardUntil);
        result.push_back(turn ? plan_.centre + *turn : x(kPerPartial * k));
    }
    return result;
}

std::vector<double> PolarisedFit::fragility(const Eigen::VectorXd& x) const {
    const Eigen::VectorXcd c = amplitudes(basis(x));
    std::vector<double> result;
    for (Eigen::Index k = 0; k < count(); ++k) {
        double low = std::numeric_limits<double>::infinity();
        double high = -low;
        for (const double times : {1.0 / kOtherwise, 1.0, kOtherwise}) {
            const auto motion = motionOf(x, c, k, times);
            for (const double fallen : {0.5 * kHeardUntil, kHeardUntil, 2.0 * kHeardUntil}) {
                const double turn =
                    meanTurn(motion, fallen).value_or(x(kPerPartial * k) - plan_.centre);
                low = std::min(low, turn);
                high = std::max(high, turn);
            }
        }
        result.push_back(0.5 * (high - low));
    }
    return result;
}

} // namespace

PolarisedBandResult fitPolarisedBand(const std::vector<double>& times,
                                     const Eigen::VectorXcd& envelope,
                                     const std::vector<PolarisedPartial>& partials,
                                     const PolarisedBandPlan& plan) {
    PolarisedFit fit(times, envelope, partials, plan);

    struct Optimum {
        double cost;
        Eigen::VectorXd x;
    };

    std::vector<Optimum> optima;
    const unsigned starts = 1U << static_cast<unsigned>(partials.size());
    const auto known = [&](unsigned signs) {
        for (std::size_t k = 0; k < partials.size(); ++k) {
            if (partials[k].splitKnown && ((signs >> k) & 1U) != 0U) {
                return true;
            }
        }
        return false;
    };
    for (unsigned signs = 0; signs < starts; ++signs) {
        if (known(signs)) {
            continue;
        }
        Eigen::VectorXd x = fit.start(signs);
        fit.refine(x, 4);
        if (signs == 0) {
            fit.setVariance(x);
        }
        optima.push_back({0.0, x});
    }
    double lowest = 1e300;
    for (Optimum& optimum : optima) {
        optimum.cost = fit.refine(optimum.x, 15);
        lowest = std::min(lowest, optimum.cost);
    }
    for (const Optimum& optimum : optima) {
        if (optimum.cost <= lowest) {
            fit.setVariance(optimum.x);
            break;
        }
    }
    lowest = 1e300;
    for (Optimum& optimum : optima) {
        optimum.cost = fit.refine(optimum.x, 8);
        lowest = std::min(lowest, optimum.cost);
    }
    // Draws from the Gaussian about each optimum: the mean frequency is not linear in the unknowns.
    const auto count = static_cast<Eigen::Index>(partials.size());
    Eigen::VectorXd mean = Eigen::VectorXd::Zero(count);
    Eigen::MatrixXd square = Eigen::MatrixXd::Zero(count, count);
    double weights = 0.0;
    PolarisedBandResult result;
    Random random(1);
    for (const Optimum& optimum : optima) {
        const double weight = std::exp(lowest - optimum.cost);
        if (weight < 1e-3) {
            continue;
        }
        if (optimum.cost <= lowest) {
            result.level = fit.levels(optimum.x);
            result.fragility = fit.fragility(optimum.x);
            result.best = fit.afterwards(optimum.x);
        }
        const Eigen::LLT<Eigen::MatrixXd> factor(fit.information(optimum.x));
        for (int draw = 0; draw < kDraws; ++draw) {
            Eigen::VectorXd unit(optimum.x.size());
            for (Eigen::Index i = 0; i < unit.size(); ++i) {
                unit(i) = random.normal();
            }
            // Antithetic pairs: the draws' mean is the optimum's own to first order.
            for (const double sign : {1.0, -1.0}) {
                const Eigen::VectorXd x = optimum.x + sign * factor.matrixU().solve(unit);
                const std::vector<double> means = fit.means(x);
                const Eigen::VectorXd m = Eigen::Map<const Eigen::VectorXd>(means.data(), count);
                mean += weight * m;
                square += weight * m * m.transpose();
                weights += weight;
            }
        }
    }
    mean /= weights;
    result.covariance = square / weights - mean * mean.transpose();
    result.meanHz.assign(mean.data(), mean.data() + count);
    return result;
}

} // namespace quillbench
