#include "core/dsp/energy_model.hpp"

#include "core/support/contract.hpp"

#include <algorithm>
#include <cmath>

namespace quillbench {

namespace {

constexpr double kRipple = 0.2;  // nepers: what a partial's own beat does to its level
constexpr double kSpread = 0.35; // of single decay rates about the string's line, natural log

double interpolated(std::span<const double> table, double place) {
    const double last = static_cast<double>(table.size() - 1);
    const double inside = std::clamp(place, 0.0, last);
    const auto i = std::min(static_cast<std::size_t>(inside), table.size() - 2);
    const double part = inside - static_cast<double>(i);
    return table[i] * (1.0 - part) + table[i + 1] * part;
}

/// Straight line through levels in nepers, weighted; `from` leaves out earlier points.
struct LevelLine {
    double centre = 0; ///< seconds
    double level = 0;  ///< nepers at the centre
    double rate = 0;   ///< nepers per second downwards
    double sd = 1e9;   ///< of the rate
};

LevelLine levelLine(const PhaseTrack& track, double from) {
    double s0 = 0.0;
    double st = 0.0;
    double stt = 0.0;
    double sy = 0.0;
    double sty = 0.0;
    double first = 1e9;
    double last = 0.0;
    for (const PhasePoint& point : track.points) {
        if (point.t < from) {
            continue;
        }
        const double weight = 1.0 / (point.variance + kRipple * kRipple / 4.0);
        const double level = 0.5 * std::log(point.power);
        s0 += weight;
        st += weight * point.t;
        stt += weight * point.t * point.t;
        sy += weight * level;
        sty += weight * point.t * level;
        first = std::min(first, point.t);
        last = std::max(last, point.t);
    }
    LevelLine line;
    line.centre = st / s0;
    line.level = sy / s0;
    const double lever = stt - line.centre * st;
    if (last > first && lever > 1e-12) {
        line.rate = -(sty - line.centre * sy) / lever;
        line.sd = std::sqrt(1.0 / lever + std::pow(kRipple / (last - first), 2.0));
    }
    return line;
}

double shrunk(const LevelLine& line, double expected, double expectedSd) {
    const double measured = 1.0 / (line.sd * line.sd);
    const double prior = 1.0 / (expectedSd * expectedSd);
    const double rate = (measured * line.rate + prior * expected) / (measured + prior);
    return std::max(rate, 0.2 * expected);
}

} // namespace

PartialDecay
EnergyModel::decayOf(const PhaseTrack& track, const StringPriors& priors, double ratio) {
    EXPECTS(!track.points.empty());
    const double expected = priors.decayRate * relativeDecay(track.n, track.referenceHz) * ratio;
    const double last = track.points[track.points.size() - 1].t;
    const LevelLine whole = levelLine(track, 0.0);
    PartialDecay decay;
    decay.n = track.n;
    decay.hz = track.referenceHz;
    decay.rate = shrunk(whole, expected, expected * kSpread);
    decay.power = std::exp(2.0 * (whole.level + decay.rate * whole.centre));
    decay.late = shrunk(levelLine(track, 0.4 * last), decay.rate, decay.rate * kSpread);
    return decay;
}

EnergyModel::EnergyModel(std::span<const PhaseTrack> tracks, std::span<const PartialDecay> decays) {
    EXPECTS(!tracks.empty() && tracks.size() == decays.size());
    for (std::size_t i = 0; i < tracks.size(); ++i) {
        addPartial(tracks[i], decays[i]);
    }
    const double first = energy_[0];
    EXPECTS(first > 0.0);
    for (double& energy : energy_) {
        energy /= first;
    }
    for (std::size_t i = 0; i < kSteps; ++i) {
        integral_[i + 1] = integral_[i] + 0.5 * kStep * (energy_[i] + energy_[i + 1]);
    }
}

void EnergyModel::addPartial(const PhaseTrack& track, const PartialDecay& decay) {
    const auto& points = track.points;
    const std::size_t last = points.size() - 1;
    const auto level = [&](std::size_t i) {
        return std::log(std::max(points[i].power - track.noisePower, 0.1 * points[i].power));
    };
    const std::size_t near = std::min<std::size_t>(2, last);
    const double early = std::clamp(
        (level(0) - level(near)) / (points[near].t - points[0].t), decay.rate, 8.0 * decay.rate);
    // The end's level, less its ripple: the mean of the last points moved along the decay.
    double end = 0.0;
    std::size_t count = 0;
    for (std::size_t i = last + 1 - std::min<std::size_t>(4, last + 1); i <= last; ++i) {
        end += level(i) + 2.0 * decay.late * (points[i].t - points[last].t);
        ++count;
    }
    end /= static_cast<double>(count);
    std::size_t after = 0;
    for (std::size_t k = 0; k <= kSteps; ++k) {
        const double t = static_cast<double>(k) * kStep;
        while (after <= last && points[after].t <= t) {
            ++after;
        }
        double here = 0.0;
        if (after == 0) {
            here = level(0) + early * (points[0].t - t);
        } else if (after > last) {
            here = end - 2.0 * decay.late * (t - points[last].t);
        } else {
            const double part = (t - points[after - 1].t) / (points[after].t - points[after - 1].t);
            here = level(after - 1) * (1.0 - part) + level(after) * part;
        }
        energy_[k] += std::exp(here);
    }
}

double EnergyModel::energy(double t) const {
    return interpolated(energy_, t / kEnd * static_cast<double>(kSteps));
}

double EnergyModel::integral(double t) const {
    return interpolated(integral_, t / kEnd * static_cast<double>(kSteps));
}

double EnergyModel::slopeMean(double from, double to) const {
    constexpr int kPieces = 24;
    double sum = 0.0;
    double weights = 0.0;
    for (int i = 0; i < kPieces; ++i) {
        const double u = (i + 0.5) / kPieces;
        const double weight = u * (1.0 - u);
        sum += weight * energy(from + (to - from) * u);
        weights += weight;
    }
    return sum / weights;
}

} // namespace quillbench
