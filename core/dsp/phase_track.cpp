#include "core/dsp/phase_track.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <complex>
#include <numbers>

namespace quillbench {

namespace {

using Complex = std::complex<double>;
constexpr double kPointSeconds = 0.040;
constexpr double kFrameOverlapVariance = 2.67; // mean of three-quarters overlapping Hann frames
constexpr double kSecondDifference = 4.6;      // its variance two frames apart, in frame variances
constexpr double kFallen = 1e-4;               // −40 dB
constexpr double kAboveNoise = 8.0;            // 9 dB
constexpr double kFollowed =
    8.0; // power of a frame over its noise, about: enough to follow its phase
constexpr double kLatestStart = 0.25; // seconds: what rises later is something else
constexpr double kPhaseFloor = 0.003; // radians: sidelobes of the other partials
constexpr std::size_t kMostSamples = 96;

/// Power of the noise in one frame.
double noiseOf(std::span<const Complex> frames) {
    std::array<double, kMostSamples> deviations{};
    std::size_t count = 0;
    const std::size_t stride = frames.size() / kMostSamples + 1;
    for (std::size_t k = 2; k + 2 < frames.size(); k += stride) {
        const Complex across = frames[k - 2] * frames[k + 2];
        const Complex here = frames[k] * frames[k];
        if (std::abs(across) <= 0.0 || std::abs(here) <= 0.0) {
            continue;
        }
        deviations[count++] =
            std::norm(frames[k]) * std::norm(std::log(here / across)) / kSecondDifference;
    }
    if (count == 0) {
        return frames.empty() ? 0.0 : std::norm(frames.front()) * 1e-3;
    }
    const auto end = deviations.begin() + static_cast<std::ptrdiff_t>(count);
    const auto middle = deviations.begin() + static_cast<std::ptrdiff_t>(count / 2);
    std::nth_element(deviations.begin(), middle, end);
    return *middle / std::numbers::ln2; // median of an exponential distribution to its mean
}

Complex meanOf(std::span<const Complex> frames) {
    Complex sum = 0.0;
    for (const Complex& frame : frames) {
        sum += frame;
    }
    return sum / static_cast<double>(frames.size());
}

double wrapped(double angle) {
    return std::remainder(angle, 2.0 * std::numbers::pi);
}

/// Turn from one point to the next, followed from frame to frame: between points a beat's minimum or a
/// reference some hertz off would leave it open by whole turns.
double turnAcross(std::span<const Complex> frames, std::size_t from, std::size_t perPoint) {
    double turn = 0.0;
    for (std::size_t k = from; k < from + perPoint; ++k) {
        turn += std::arg(frames[k + 1] * std::conj(frames[k]));
    }
    return turn;
}

} // namespace

std::size_t framesPerPoint(const HeterodyneBank& bank) {
    return static_cast<std::size_t>(
        std::max(1.0, std::floor(kPointSeconds / bank.hopSeconds() + 0.5)));
}

double meanPointPower(const HeterodyneBank& bank, std::size_t partial) {
    const auto frames = bank.track(partial);
    const std::size_t perPoint = framesPerPoint(bank);
    double sum = 0.0;
    std::size_t count = 0;
    for (std::size_t first = 0; first + perPoint <= frames.size(); first += perPoint) {
        sum += std::norm(meanOf(frames.subspan(first, perPoint)));
        ++count;
    }
    return count == 0 ? 0.0 : sum / static_cast<double>(count);
}

PhaseTrack
followPhase(const HeterodyneBank& bank, std::size_t partial, int n, double pluck, double before) {
    PhaseTrack track;
    track.n = n;
    track.referenceHz = bank.reference(partial);
    const auto frames = bank.track(partial);
    const std::size_t perPoint = framesPerPoint(bank);
    track.noisePower =
        std::max(noiseOf(frames) * kFrameOverlapVariance / static_cast<double>(perPoint), before);
    const double clear = kFollowed * track.noisePower * static_cast<double>(perPoint);
    double lastPhase = 0.0;
    for (std::size_t first = 0; first + perPoint <= frames.size(); first += perPoint) {
        const Complex mean = meanOf(frames.subspan(first, perPoint));
        const std::size_t middle = first + perPoint / 2;
        PhasePoint point;
        point.t = (bank.time(first) + bank.time(first + perPoint - 1)) / 2.0 - pluck;
        point.power = std::norm(mean);
        const bool gone = point.power < kAboveNoise * track.noisePower ||
                          (!track.points.empty() && point.power < kFallen * track.points[0].power);
        if (gone && (!track.points.empty() || point.t > kLatestStart)) {
            break;
        }
        if (gone) {
            continue;
        }
        const double phase = std::arg(mean);
        if (track.points.empty()) {
            point.phase = phase;
        } else {
            const double expected =
                lastPhase +
                (point.power > clear ? turnAcross(frames, middle - perPoint, perPoint) : 0.0);
            point.phase = expected + wrapped(phase - expected);
        }
        lastPhase = point.phase;
        point.variance = track.noisePower / (2.0 * point.power) + kPhaseFloor * kPhaseFloor;
        if (!track.points.tryPush(point)) {
            break;
        }
    }
    return track;
}

} // namespace quillbench
