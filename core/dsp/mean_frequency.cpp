#include "core/dsp/mean_frequency.hpp"

#include "core/support/contract.hpp"

#include <algorithm>

namespace quillbench {

namespace {

constexpr double kCertaintyHz = 0.05;    // of one partial's mean frequency in the definition:
constexpr double kCertaintyCents = 0.05; // both, added as variances
constexpr double kSplitCents = 1.0;      // typical splitting by polarisation: the pace of wandering
constexpr double kDiffuse = 100.0;       // radians²: the phase at the pluck is unknown
constexpr double kOffsetRoom = 30.0;     // cents: a partial's own frequency is unknown
constexpr double kLeastVariance = 1e-6;  // cents²
constexpr double kSpacing = 0.04;        // seconds between foretold instants

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
    void see(double phase, double glide, double variance, StringInformation& fit) {
        const Eigen::RowVector2d surprise = Eigen::RowVector2d(phase, glide) - mean_.row(0);
        const double spread = p_(0, 0) + variance;
        const Eigen::Vector4d gain = p_.col(0) / spread;
        mean_ += gain * surprise;
        p_ -= spread * gain * gain.transpose();
        fit.add(StringVector(0.0, 0.0, surprise(1)), surprise(0), spread);
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

} // namespace

double stiffnessSlope(const StiffComb& comb, double n) {
    const auto part = [&](double k) { return comb.b * k * k / (1.0 + comb.b * k * k); };
    return 0.5 / kCent * (part(n) - part(1.0));
}

double definitionVariance(double hz) {
    const double cents = kCertaintyHz / (hz * kCent);
    return cents * cents + kCertaintyCents * kCertaintyCents;
}

MeanFrequency meanFrequency(const PhaseTrack& track,
                            double end,
                            double wander,
                            const EnergyModel& energy,
                            const StiffComb& base) {
    EXPECTS(track.points.size() >= 2 && wander > 0.0);
    const double hz = base.partial(track.n);
    const double turn = 2.0 * std::numbers::pi * hz * kCent; // radians per second and cent
    PartialFilter filter(turn, wander);
    MeanFrequency result;
    result.slope = stiffnessSlope(base, track.n);
    const Instants instants = instantsOf(track, end);
    double last = instants[0].t;
    double glideSlope = 0.0;
    for (const Instant& instant : instants) {
        filter.advance(instant.t - last);
        last = instant.t;
        const double glide = turn * energy.integral(instant.t);
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

StringInformation MeanFrequency::withOffset(double offset) const {
    StringInformation result = fit;
    result.add(StringVector(1.0, slope, -perGlide), value, variance + offset);
    return result;
}

} // namespace quillbench
