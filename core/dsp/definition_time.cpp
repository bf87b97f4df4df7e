#include "core/dsp/definition_time.hpp"

#include "core/dsp/constants.hpp"
#include "core/support/contract.hpp"

#include <algorithm>
#include <cmath>

namespace quillbench {

namespace {

constexpr double kDefinitionFall = 1e-4; // −40 dB
constexpr double kUnderLoudest = 1e-5;   // −50 dB
constexpr double kSmoothedOver = 0.1;    // seconds
constexpr double kShortestTime = 0.12;   // seconds
constexpr double kForetoldPace = 0.04;   // seconds between foretold levels

/// Mean power over the first quarter of the definition's time: as heard, else as foretold.
double earlyPower(const PhaseTrack& track, const PartialDecay& decay) {
    constexpr double kQuarter = kSustainFrom + 0.25 * (kSustainTo - kSustainFrom);
    double sum = 0.0;
    double count = 0.0;
    double last = 0.0;
    for (const PhasePoint& point : track.points) {
        if (point.t >= kSustainFrom && point.t <= kQuarter) {
            sum += point.power;
            count += 1.0;
        }
        last = point.t;
    }
    const double pace =
        count > 1.0 ? (std::min(last, kQuarter) - kSustainFrom) / count : kForetoldPace;
    double t = std::max(last + pace, kSustainFrom);
    while (t < kQuarter) {
        sum += decay.power * std::exp(-2.0 * decay.rate * t);
        count += 1.0;
        t += pace;
    }
    return sum / std::max(count, 1.0);
}

double smoothedPower(const PhaseTrack& track, std::size_t first) {
    double sum = 0.0;
    double count = 0.0;
    for (std::size_t k = first; k < track.points.size(); ++k) {
        if (track.points[k].t > track.points[first].t + kSmoothedOver) {
            break;
        }
        sum += track.points[k].power;
        count += 1.0;
    }
    return sum / count;
}

double endOf(const PhaseTrack& track, const PartialDecay& decay, double loudest) {
    const auto floorUnder = [&](double power) {
        return std::max(kDefinitionFall * power, kUnderLoudest * loudest);
    };
    double at = kSustainFrom;
    double power = decay.power * std::exp(-2.0 * decay.rate * at);
    double floor = floorUnder(power);
    bool begun = false;
    for (std::size_t k = 0; k < track.points.size(); ++k) {
        if (track.points[k].t < kSustainFrom) {
            continue;
        }
        at = track.points[k].t;
        power = smoothedPower(track, k);
        if (!begun) {
            floor = floorUnder(power);
            begun = true;
        }
        if (power < floor) {
            return at;
        }
    }
    return at + 0.5 * std::log(std::max(power / floor, 1.0)) / decay.late;
}

} // namespace

void definitionEnds(std::span<const PhaseTrack> tracks,
                    std::span<const PartialDecay> decays,
                    std::span<double> ends) {
    EXPECTS(decays.size() >= tracks.size() && ends.size() >= tracks.size());
    double loudest = 0.0;
    for (std::size_t i = 0; i < tracks.size(); ++i) {
        loudest = std::max(loudest, earlyPower(tracks[i], decays[i]));
    }
    for (std::size_t i = 0; i < tracks.size(); ++i) {
        ends[i] = std::clamp(
            endOf(tracks[i], decays[i], loudest), kSustainFrom + kShortestTime, kSustainTo);
    }
}

} // namespace quillbench
