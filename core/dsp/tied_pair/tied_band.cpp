#include "core/dsp/tied_pair/tied_band.hpp"

#include "core/dsp/constants.hpp"
#include "core/support/contract.hpp"

#include <algorithm>
#include <cmath>
#include <complex>
#include <utility>

namespace quillbench {

namespace {

constexpr double kShortestFrame = 0.07; ///< s
constexpr double kLongestFrame = 0.4;
constexpr double kFrameLines = 5.0; ///< frame length times distance of the nearest other line
constexpr double kMostSegmentFrames = 120.0;
constexpr double kKaiserBeta = 8.0;
/// No model of a string is truer than this: share of the power that counts as noise.
constexpr double kModelError = 5e-5;
constexpr double kSilence = 1e-8;

/// Lines of the two strings nearer than this share a band.
double sharedHz(double hz) {
    return std::max(16.0, hz * 45.0 * kCent);
}

std::vector<double> kaiserWindow(std::size_t length) {
    std::vector<double> window(length);
    double sum = 0.0;
    for (std::size_t i = 0; i < length; ++i) {
        const double x = 2.0 * static_cast<double>(i) / (static_cast<double>(length) - 1.0) - 1.0;
        window[i] = std::cyl_bessel_i(0.0, kKaiserBeta * std::sqrt(std::max(0.0, 1.0 - x * x)));
        sum += window[i];
    }
    for (double& weight : window) {
        weight *= 2.0 / sum;
    }
    return window;
}

/// Overlapping frames that count as one: 1 + 2·Σ of the window's correlation with itself.
double correlationOf(const std::vector<double>& window, std::size_t hop) {
    double whole = 0.0;
    for (const double w : window) {
        whole += w * w;
    }
    double sum = 1.0;
    for (std::size_t lag = hop; lag < window.size() && lag <= 5 * hop; lag += hop) {
        double shared = 0.0;
        for (std::size_t i = 0; i + lag < window.size(); ++i) {
            shared += window[i] * window[i + lag];
        }
        sum += 2.0 * shared / whole;
    }
    return sum;
}

void measure(TiedSegment& segment) {
    const Eigen::Index count = segment.envelope.size();
    const Eigen::VectorXd power = segment.envelope.cwiseAbs2();
    segment.level = std::sqrt(power.mean());
    segment.top = std::sqrt(power.maxCoeff());
    for (std::size_t third = 0; third <= TiedSegment::kThirds; ++third) {
        segment.bounds[third] = count * static_cast<Eigen::Index>(third) /
                                static_cast<Eigen::Index>(TiedSegment::kThirds);
    }
    const double mean = power.mean();
    for (std::size_t third = 0; third < TiedSegment::kThirds; ++third) {
        const Eigen::Index from = segment.bounds[third];
        const Eigen::Index many = segment.bounds[third + 1] - from;
        segment.floor[third] = (many > 0 ? kModelError * power.segment(from, many).mean() : 0.0) +
                               kSilence * mean + 1e-24;
        segment.noise[third] = 1e-3 * mean + 1e-24;
    }
}

} // namespace

bool canBeParted(double apart) {
    return kFrameLines / apart <= kLongestFrame;
}

TiedSegment
cutSegment(const TiedSound& sound, double centre, double apart, std::vector<TiedPart> parts) {
    EXPECTS(apart > 0.0);
    TiedSegment segment;
    segment.centre = centre;
    segment.parts = std::move(parts);
    const double rate = sound.rate.hz();
    const double span = sound.stop - sound.start;
    const auto length = static_cast<std::size_t>(
        std::min(std::max(kFrameLines / apart, kShortestFrame), span / 2.5) * rate);
    const auto hop = static_cast<std::size_t>(
        std::max(static_cast<double>(length) / 5.0, span * rate / kMostSegmentFrames));
    const auto first = static_cast<std::size_t>(std::ceil(std::max(sound.start, 0.0) * rate));
    const auto last =
        std::min(sound.samples.size(), static_cast<std::size_t>(std::max(sound.stop, 0.0) * rate));
    if (length < 8 || hop == 0 || first + length >= last) {
        return segment;
    }
    const std::vector<double> window = kaiserWindow(length);
    const double middle = (static_cast<double>(length) - 1.0) / 2.0;
    std::vector<double> real(length);
    std::vector<double> imaginary(length);
    for (std::size_t i = 0; i < length; ++i) {
        const double phase = kTwoPi * centre * (static_cast<double>(i) - middle) / rate;
        real[i] = window[i] * std::cos(phase);
        imaginary[i] = -window[i] * std::sin(phase);
    }
    const std::size_t count = (last - first - length - 1) / hop + 1;
    segment.envelope.resize(static_cast<Eigen::Index>(count));
    segment.times.reserve(count);
    for (std::size_t m = 0; m < count; ++m) {
        const double* x = sound.samples.data() + first + m * hop;
        double re = 0.0;
        double im = 0.0;
        for (std::size_t i = 0; i < length; ++i) {
            re += x[i] * real[i];
            im += x[i] * imaginary[i];
        }
        const double time = (static_cast<double>(first + m * hop) + middle) / rate;
        segment.times.push_back(time);
        segment.envelope[static_cast<Eigen::Index>(m)] =
            std::complex<double>(re, im) *
            std::polar(1.0, -kTwoPi * std::remainder(centre * time, 1.0));
    }
    segment.correlation = correlationOf(window, hop);
    measure(segment);
    return segment;
}

TiedGroups groupsOf(std::span<const TiedString* const> strings, double topHz) {
    struct Line {
        double hz = 0.0;
        TiedPart part;
    };

    constexpr int kNeighbours = 60; // beyond the top partial a neighbour is a neighbour too
    std::vector<Line> lines;
    std::vector<double> all;
    for (std::size_t s = 0; s < strings.size(); ++s) {
        for (int i = 0; i < kNeighbours; ++i) {
            const double hz = strings[s]->expectedHz(i);
            all.push_back(hz);
            if (i < strings[s]->partials && hz < topHz) {
                lines.push_back({hz, {s, i}});
            }
        }
    }
    std::sort(all.begin(), all.end());
    std::sort(lines.begin(), lines.end(), [](const Line& a, const Line& b) { return a.hz < b.hz; });
    TiedGroups groups;
    std::vector<std::array<double, 2>> ends;
    for (const Line& line : lines) {
        const bool joins = !ends.empty() && groups.parts.back().size() < 2 &&
                           groups.parts.back().back().string != line.part.string &&
                           line.hz - ends.back()[1] < sharedHz(line.hz);
        if (!joins) {
            groups.parts.emplace_back();
            ends.push_back({line.hz, line.hz});
        }
        groups.parts.back().push_back(line.part);
        ends.back()[1] = line.hz;
    }
    for (const auto& [low, high] : ends) {
        double spacing = low;
        for (const double hz : all) {
            if (hz < low - sharedHz(low)) {
                spacing = low - hz;
            } else if (hz > high + sharedHz(high)) {
                spacing = std::min(spacing, hz - high);
                break;
            }
        }
        groups.centre.push_back(0.5 * (low + high));
        groups.spacing.push_back(spacing);
    }
    return groups;
}

} // namespace quillbench
