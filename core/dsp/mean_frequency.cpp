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

/// State of one partial: phase, constant offset, wandering, and the least-squares slope of the phase so far;
/// `seen` follows what was measured, `bent` what one cent of glide does. Written out by hand: it runs for every
/// size of wandering of every partial at every reading.
class PartialFilter {
public:
    PartialFilter(double turn, double wander)
        : turn_(turn),
          wander_(wander * wander),
          p22_(wander_) {}

    void advance(double step) {
        const double keep = keepOver(step);
        const double drift = turn_ * step;
        const double wandering = 0.5 * drift * (1.0 + keep);
        seen_.phase += drift * seen_.offset + wandering * seen_.wander;
        bent_.phase += drift * bent_.offset + wandering * bent_.wander;
        seen_.wander *= keep;
        bent_.wander *= keep;
        const double c1 = p01_ + drift * p11_ + wandering * p12_;
        const double c2 = p02_ + drift * p12_ + wandering * p22_;
        p00_ += drift * (p01_ + c1) + wandering * (p02_ + c2);
        p03_ += drift * p13_ + wandering * p23_;
        const double fresh = wander_ * (1.0 - keep * keep);
        const double half = 0.5 * drift;
        p00_ += half * half * fresh;
        p01_ = c1;
        p02_ = keep * c2 + half * fresh;
        p12_ *= keep;
        p22_ = keep * keep * p22_ + fresh;
        p23_ *= keep;
    }

    /// A measured phase and what a cent of glide adds to it.
    void see(double phase, double glide, double variance, StringInformation& fit) {
        const double surprise = phase - seen_.phase;
        const double bend = glide - bent_.phase;
        const double spread = p00_ + variance;
        const double g0 = p00_ / spread;
        const double g1 = p01_ / spread;
        const double g2 = p02_ / spread;
        const double g3 = p03_ / spread;
        seen_.move(surprise, g0, g1, g2, g3);
        bent_.move(bend, g0, g1, g2, g3);
        p33_ -= g3 * p03_;
        p23_ -= g2 * p03_;
        p13_ -= g1 * p03_;
        p22_ -= g2 * p02_;
        p12_ -= g1 * p02_;
        p11_ -= g1 * p01_;
        p03_ -= g0 * p03_;
        p02_ -= g0 * p02_;
        p01_ -= g0 * p01_;
        p00_ -= g0 * p00_;
        fit.a(2, 2) += bend * bend / spread;
        fit.b(2) += bend * surprise / spread;
        fit.square += surprise * surprise / spread;
        fit.logDeterminant += std::log(spread);
    }

    /// Counts the phase of this instant into the slope.
    void count(double weight) {
        seen_.slope += weight * seen_.phase;
        bent_.slope += weight * bent_.phase;
        p33_ += weight * (2.0 * p03_ + weight * p00_);
        p03_ += weight * p00_;
        p13_ += weight * p01_;
        p23_ += weight * p02_;
    }

    [[nodiscard]] double seen() const { return seen_.slope; }

    [[nodiscard]] double ofGlide() const { return bent_.slope; }

    [[nodiscard]] double variance() const { return p33_; }

private:
    /// What is left of the wandering after `step`; most steps are alike.
    double keepOver(double step) {
        if (std::abs(step - step_) > 1e-9) {
            step_ = step;
            keep_ = std::exp(-step * turn_ * kSplitCents);
        }
        return keep_;
    }

    struct Mean {
        double phase = 0.0;
        double offset = 0.0;
        double wander = 0.0;
        double slope = 0.0;

        void move(double surprise, double g0, double g1, double g2, double g3) {
            phase += g0 * surprise;
            offset += g1 * surprise;
            wander += g2 * surprise;
            slope += g3 * surprise;
        }
    };

    double turn_;
    double wander_;
    double step_ = 0.0;
    double keep_ = 1.0;
    Mean seen_;
    Mean bent_;
    // Covariance of phase (0), offset (1), wandering (2), slope (3).
    double p00_ = kDiffuse;
    double p01_ = 0.0;
    double p02_ = 0.0;
    double p03_ = 0.0;
    double p11_ = kOffsetRoom * kOffsetRoom;
    double p12_ = 0.0;
    double p13_ = 0.0;
    double p22_;
    double p23_ = 0.0;
    double p33_ = 0.0;
};

/// An instant of the slope's time: heard (with its point) or foretold.
struct Instant {
    double t = 0;
    const PhasePoint* point = nullptr;
    double weight = 0; ///< in the least-squares slope
    double glide = 0;  ///< radians that one cent of glide makes
};

using Instants = FixedVector<Instant, 160>;

Instants instantsOf(const PhaseTrack& track, double end) {
    Instants instants;
    for (const PhasePoint& point : track.points) {
        instants.tryPush({point.t, &point});
    }
    const double last = track.points[track.points.size() - 1].t;
    const double spacing =
        track.points.size() > 1
            ? (last - track.points[0].t) / static_cast<double>(track.points.size() - 1)
            : kSpacing;
    const double begin = std::max(kSustainFrom, track.points[0].t);
    end = std::max(end, begin + 3.5 * spacing); // three instants at least
    const auto foretold = static_cast<int>(std::max(end - last, 0.0) / spacing);
    for (int k = 1; k <= foretold; ++k) {
        instants.tryPush({last + k * spacing, nullptr});
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

void meanFrequencies(const PhaseTrack& track,
                     double end,
                     const EnergyModel& energy,
                     const StiffComb& base,
                     std::span<const double> wanders,
                     std::span<MeanFrequency> results) {
    EXPECTS(track.points.size() >= 2 && wanders.size() == results.size());
    const double hz = base.partial(track.n);
    const double turn = 2.0 * std::numbers::pi * hz * kCent; // radians per second and cent
    const double slope = stiffnessSlope(base, track.n);
    Instants instants = instantsOf(track, end);
    double glideSlope = 0.0;
    for (Instant& instant : instants) {
        instant.glide = turn * energy.integral(instant.t);
        glideSlope += instant.weight * instant.glide;
    }
    for (std::size_t w = 0; w < wanders.size(); ++w) {
        PartialFilter filter(turn, wanders[w]);
        MeanFrequency& result = results[w];
        result = MeanFrequency();
        double last = instants[0].t;
        for (const Instant& instant : instants) {
            filter.advance(instant.t - last);
            last = instant.t;
            if (instant.point != nullptr) {
                const double phase = instant.point->phase -
                                     2.0 * std::numbers::pi * (hz - track.referenceHz) * instant.t;
                filter.see(phase, instant.glide, instant.point->variance, result.fit);
            }
            filter.count(instant.weight);
        }
        // The slope of the whole phase: what is not glide, with the glide put back.
        result.slope = slope;
        result.value = filter.seen() / turn;
        result.perGlide = (glideSlope - filter.ofGlide()) / turn;
        result.variance = std::max(filter.variance() / (turn * turn), kLeastVariance);
    }
}

} // namespace quillbench
