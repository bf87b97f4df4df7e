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

} // namespace

PartialDecay
EnergyModel::decayOf(const PhaseTrack& track, const StringPriors& priors, double ratio) {
    EXPECTS(!track.points.empty());
    double s0 = 0.0;
    double st = 0.0;
    double stt = 0.0;
    double sy = 0.0;
    double sty = 0.0;
    for (const PhasePoint& point : track.points) {
        const double weight = 1.0 / (point.variance + kRipple * kRipple / 4.0);
        const double level = 0.5 * std::log(point.power);
        s0 += weight;
        st += weight * point.t;
        stt += weight * point.t * point.t;
        sy += weight * level;
        sty += weight * point.t * level;
    }
    const double expected = priors.decayRate * relativeDecay(track.n, track.referenceHz) * ratio;
    const double priorSd = expected * kSpread;
    const double first = track.points[0].t;
    const double last = track.points[track.points.size() - 1].t;
    const double centre = st / s0;
    const double lever = stt - centre * st;
    PartialDecay decay;
    decay.n = track.n;
    decay.hz = track.referenceHz;
    double rate = expected;
    if (track.points.size() >= 3 && lever > 0.0) {
        const double measured = -(sty - centre * sy) / lever;
        const double sd = std::sqrt(1.0 / lever + std::pow(kRipple / (last - first), 2.0));
        const double wm = 1.0 / (sd * sd);
        const double wp = 1.0 / (priorSd * priorSd);
        rate = (wm * measured + wp * expected) / (wm + wp);
    }
    decay.rate = std::max(rate, 0.2 * expected);
    decay.power = std::exp(2.0 * (sy / s0 + decay.rate * centre));
    return decay;
}

EnergyModel::EnergyModel(std::span<const PartialDecay> partials) {
    EXPECTS(!partials.empty());
    const double step = kEnd / static_cast<double>(kSteps);
    double total = 0.0;
    for (const PartialDecay& partial : partials) {
        total += partial.power;
        const double fall = std::exp(-2.0 * partial.rate * step);
        double power = partial.power;
        for (double& energy : energy_) {
            energy += power;
            power *= fall;
        }
    }
    EXPECTS(total > 0.0);
    for (double& energy : energy_) {
        energy /= total;
    }
    for (std::size_t i = 0; i < kSteps; ++i) {
        integral_[i + 1] = integral_[i] + 0.5 * step * (energy_[i] + energy_[i + 1]);
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
