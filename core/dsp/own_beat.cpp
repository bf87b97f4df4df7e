#include "core/dsp/own_beat.hpp"

#include <Eigen/Dense>

#include <algorithm>
#include <array>
#include <cmath>
#include <complex>
#include <cstddef>
#include <numbers>

namespace quillbench {

namespace {

constexpr int kLowerPartials = 10;
constexpr double kShortest = 0.8;   // seconds heard
constexpr double kLeastBeats = 0.9; // heard of a partial, or it cannot be told from its fall
constexpr double kFastest = 9.0;    // beats per second that points 40 ms apart follow
constexpr double kLeastSplit = 0.4; // cents
constexpr double kMostSplit = 20.0;
constexpr int kTrials = 64;
constexpr double kExplained = 0.5;   // of the swing's variance, for a partial that beats
constexpr double kLeastDepth = 0.25; // nepers: 2 dB either way
constexpr double kMostOfThem = 0.7;  // of the partials that could show the beat

/// Level in nepers less a parabola (a fall in two stages), at nearly even instants.
struct Swing {
    int n = 1;
    double hz = 0;
    double step = 0;
    double seconds = 0;
    FixedVector<double, PhaseTrack::kMostPoints> level;
    double variance = 0;
};

Swing swingOf(const PhaseTrack& track) {
    Swing swing;
    swing.n = track.n;
    swing.hz = track.referenceHz;
    const std::size_t count = track.points.size();
    swing.seconds = track.points[count - 1].t - track.points[0].t;
    swing.step = swing.seconds / static_cast<double>(count - 1);
    Eigen::Matrix3d a = Eigen::Matrix3d::Zero();
    Eigen::Vector3d b = Eigen::Vector3d::Zero();
    for (const PhasePoint& point : track.points) {
        const Eigen::Vector3d x(1.0, point.t, point.t * point.t);
        a += x * x.transpose();
        b += x * (0.5 * std::log(point.power));
    }
    const Eigen::Vector3d fall = a.ldlt().solve(b);
    for (const PhasePoint& point : track.points) {
        const double off = 0.5 * std::log(point.power) -
                           fall.dot(Eigen::Vector3d(1.0, point.t, point.t * point.t));
        swing.level.tryPush(off);
        swing.variance += off * off / static_cast<double>(count);
    }
    return swing;
}

/// Amplitude and explained part of a beat of this rate.
struct Fit {
    double depth = 0;
    double explained = 0;
};

Fit fitBeat(const Swing& swing, double rate) {
    const std::complex<double> turn = std::polar(1.0, 2.0 * std::numbers::pi * rate * swing.step);
    std::complex<double> phasor = 1.0;
    Eigen::Matrix2d a = Eigen::Matrix2d::Zero();
    Eigen::Vector2d b = Eigen::Vector2d::Zero();
    for (const double level : swing.level) {
        const Eigen::Vector2d x(phasor.real(), phasor.imag());
        a += x * x.transpose();
        b += x * level;
        phasor *= turn;
    }
    const Eigen::Vector2d c = a.ldlt().solve(b);
    Fit fit;
    fit.depth = c.norm();
    fit.explained = b.dot(c) / (swing.variance * static_cast<double>(swing.level.size()) + 1e-12);
    return fit;
}

/// What a trial splitting explains, over the partials that could show it.
struct Trial {
    double explained = 0;
    double share = 0; ///< of those partials that clearly beat so
    double depth = 0;
    int able = 0;
};

Trial tryOut(std::span<const Swing> swings, double split) {
    Trial trial;
    std::array<double, kLowerPartials> depths{};
    std::size_t beating = 0;
    for (const Swing& swing : swings) {
        const double rate = swing.hz * split * std::numbers::ln2 / 1200.0;
        if (rate * swing.seconds < kLeastBeats || rate > kFastest) {
            continue;
        }
        ++trial.able;
        const Fit fit = fitBeat(swing, rate);
        trial.explained += fit.explained;
        if (fit.explained > kExplained && fit.depth > kLeastDepth) {
            depths[beating++] = fit.depth;
        }
    }
    if (trial.able > 0) {
        trial.explained /= trial.able;
        trial.share = static_cast<double>(beating) / trial.able;
    }
    if (beating > 0) {
        const auto middle = depths.begin() + static_cast<std::ptrdiff_t>(beating / 2);
        std::nth_element(
            depths.begin(), middle, depths.begin() + static_cast<std::ptrdiff_t>(beating));
        trial.depth = *middle;
    }
    return trial;
}

} // namespace

std::optional<OwnBeat> findOwnBeat(std::span<const PhaseTrack> tracks, double pitchHz) {
    std::array<Swing, kLowerPartials> swings;
    std::size_t count = 0;
    for (const PhaseTrack& track : tracks) {
        if (track.n <= kLowerPartials && count < swings.size() && track.points.size() >= 8 &&
            track.points[track.points.size() - 1].t - track.points[0].t > kShortest) {
            swings[count++] = swingOf(track);
        }
    }
    Trial best;
    double bestSplit = 0.0;
    for (int i = 0; i < kTrials; ++i) {
        const double split = kLeastSplit * std::pow(kMostSplit / kLeastSplit,
                                                    static_cast<double>(i) / (kTrials - 1));
        const Trial trial = tryOut({swings.data(), count}, split);
        if (trial.able >= 2 && trial.explained > best.explained) {
            best = trial;
            bestSplit = split;
        }
    }
    if (best.able < 2 || best.share < kMostOfThem) {
        return std::nullopt;
    }
    OwnBeat beat;
    beat.splitCents = bestSplit;
    beat.depthNepers = best.depth;
    beat.rate = BeatRate(pitchHz * bestSplit * std::numbers::ln2 / 1200.0);
    return beat;
}

} // namespace quillbench
