#include "core/virtual/sustain_truth.hpp"

#include "core/support/contract.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <complex>
#include <numbers>

namespace quillbench {

namespace {

constexpr double kHighestHz = 6000.0;
constexpr double kFall = 0.01;          // −40 dB
constexpr double kNotionalNoise = 1e-5; // of power: −50 dB re the loudest partial
constexpr double kScatterHz = 0.05;
constexpr double kScatterCents = 0.05;
constexpr std::size_t kSegmentsPerSample = 4;
constexpr double kLogPerCent = std::numbers::ln2 / 1200.0;

double partialOf(const StiffComb& comb, int number) {
    const double n = number;
    return n * comb.f0.value() * std::sqrt(1.0 + comb.inharmonicity * n * n);
}

double wrapped(double phase) {
    return std::remainder(phase, 2.0 * std::numbers::pi);
}

/// What is known of one partial over the window.
struct Track {
    std::vector<double> phase; ///< re the rest frequency, unwrapped
    std::vector<double> power;
};

std::vector<Track>
follow(VibratingString& string, std::size_t partials, std::size_t skip, std::size_t samples) {
    std::vector<Track> tracks(partials);
    for (std::size_t k = 0; k < skip + samples; ++k) {
        if (k >= skip) {
            const double frames =
                static_cast<double>(k * kSegmentsPerSample * VibratingString::kSegment);
            for (std::size_t i = 0; i < partials; ++i) {
                const std::complex<double> z = string.mode(2 * i) + string.mode(2 * i + 1);
                const double rest = 0.5 * (string.restAngle(2 * i) + string.restAngle(2 * i + 1));
                Track& track = tracks[i];
                const double angle = wrapped(std::arg(z) - rest * frames);
                track.phase.push_back(
                    track.phase.empty() ? angle
                                        : track.phase.back() + wrapped(angle - track.phase.back()));
                track.power.push_back(std::norm(z));
            }
        }
        for (std::size_t s = 0; s < kSegmentsPerSample; ++s) {
            string.openSegment(0.0);
            string.closeSegment(VibratingString::kSegment);
        }
    }
    return tracks;
}

/// Power smoothed over 0.1 s, so that a passing null of the two modes does not end a partial.
std::size_t heardSamples(const std::vector<double>& power, std::size_t width, double floor) {
    double first = 0.0;
    for (std::size_t k = 0; k < power.size(); ++k) {
        const std::size_t end = std::min(k + width, power.size());
        double mean = 0.0;
        for (std::size_t j = k; j < end; ++j) {
            mean += power[j];
        }
        mean /= static_cast<double>(end - k);
        if (k == 0) {
            first = mean;
        }
        if (mean < std::max(first * kFall * kFall, floor)) {
            return k;
        }
    }
    return power.size();
}

double meanOf(const std::vector<double>& values, std::size_t count) {
    const std::size_t used = std::max<std::size_t>(count, 1);
    double sum = 0.0;
    for (std::size_t k = 0; k < used; ++k) {
        sum += values[k];
    }
    return sum / static_cast<double>(used);
}

/// Standard deviation, in hertz, of the slope of phases that noise of this power makes uncertain.
double
slopeDeviation(const std::vector<double>& power, std::size_t count, double step, double noise) {
    double inverse = 0.0;
    double spread = 0.0;
    const double middle = 0.5 * static_cast<double>(count - 1);
    for (std::size_t k = 0; k < count; ++k) {
        const double x = (static_cast<double>(k) - middle) * step;
        inverse += 1.0 / std::max(power[k], noise);
        spread += x * x;
    }
    const double phaseVariance = 0.5 * noise * inverse / static_cast<double>(count);
    return std::sqrt(phaseVariance / spread) / (2.0 * std::numbers::pi);
}

double slope(const std::vector<double>& y, std::size_t count, double step) {
    const double middle = 0.5 * static_cast<double>(count - 1);
    double top = 0.0;
    double bottom = 0.0;
    for (std::size_t k = 0; k < count; ++k) {
        const double x = static_cast<double>(k) - middle;
        top += x * y[k];
        bottom += x * x;
    }
    return top / bottom / step;
}

} // namespace

std::vector<PluckTruth::Partial>
meanFrequencies(VibratingString string, SampleRate rate, Seconds from, Seconds to) {
    EXPECTS(from.count() >= 0.0 && to > from);
    const double step =
        static_cast<double>(kSegmentsPerSample * VibratingString::kSegment) / rate.hz();
    const auto skip = static_cast<std::size_t>(std::lround(from.count() / step));
    const auto samples =
        static_cast<std::size_t>(std::lround((to.count() - from.count()) / step)) + 1;
    const double hertzPerAngle = rate.hz() / (2.0 * std::numbers::pi);
    std::size_t partials = 0;
    while (2 * partials < string.modes() &&
           string.restAngle(2 * partials) * hertzPerAngle < kHighestHz) {
        ++partials;
    }
    const std::vector<Track> tracks = follow(string, partials, skip, samples);
    double loudest = 0.0;
    for (const Track& track : tracks) {
        loudest = std::max(loudest, meanOf(track.power, track.power.size() / 4));
    }
    const double noise = loudest * kNotionalNoise;
    const auto width = static_cast<std::size_t>(std::max(1.0, std::round(0.1 / step)));
    std::vector<PluckTruth::Partial> means;
    means.reserve(partials);
    for (std::size_t i = 0; i < partials; ++i) {
        const std::size_t count = heardSamples(tracks[i].power, width, noise);
        const Seconds used(static_cast<double>(count) * step);
        if (used.count() < 0.1) {
            continue;
        }
        const double rest = 0.5 * (string.restAngle(2 * i) + string.restAngle(2 * i + 1));
        PluckTruth::Partial partial;
        partial.number = static_cast<int>(i + 1);
        partial.mean = Hertz(rest * hertzPerAngle +
                             slope(tracks[i].phase, count, step) / (2.0 * std::numbers::pi));
        partial.used = used;
        partial.level = Decibel::fromPower(meanOf(tracks[i].power, count / 4));
        partial.uncertainty = slopeDeviation(tracks[i].power, count, step, noise);
        means.push_back(partial);
    }
    return means;
}

StiffComb fitStiffComb(const std::vector<PluckTruth::Partial>& partials, const StiffComb& guess) {
    EXPECTS(!partials.empty());
    EXPECTS(guess.f0.value() > 0.0);
    std::vector<double> deviation;
    deviation.reserve(partials.size());
    for (const auto& partial : partials) {
        deviation.push_back(std::hypot(
            partial.uncertainty, kScatterHz, partial.mean.value() * kScatterCents * kLogPerCent));
    }
    StiffComb comb{guess.f0, std::max(guess.inharmonicity, 1e-7)};
    const double prior = comb.inharmonicity;
    std::vector<double> residual(partials.size());
    std::vector<double> sorted(partials.size());
    for (int step = 0; step < 20; ++step) {
        for (std::size_t i = 0; i < partials.size(); ++i) {
            residual[i] =
                (partials[i].mean.value() - partialOf(comb, partials[i].number)) / deviation[i];
            sorted[i] = std::abs(residual[i]);
        }
        const auto middle = sorted.begin() + static_cast<std::ptrdiff_t>(sorted.size() / 2);
        std::nth_element(sorted.begin(), middle, sorted.end());
        const double spread = std::max(1.0, 1.4826 * *middle);
        // Normal equations of f0 and ln B; the prior (one e-fold) decides where there are two partials.
        double a = 0.0;
        double b = 0.0;
        double c = 1.0;
        double p = 0.0;
        double q = -std::log(comb.inharmonicity / prior);
        for (std::size_t i = 0; i < partials.size(); ++i) {
            const double n = partials[i].number;
            const double root = std::sqrt(1.0 + comb.inharmonicity * n * n);
            const double df = n * root / deviation[i];
            const double db =
                0.5 * n * n * n * comb.f0.value() * comb.inharmonicity / root / deviation[i];
            const double far = std::abs(residual[i]) / (4.0 * spread);
            const double biweight = far < 1.0 ? (1.0 - far * far) * (1.0 - far * far) : 0.0;
            const double weight = step < 3 ? 1.0 / (1.0 + far) : biweight;
            a += weight * df * df;
            b += weight * df * db;
            c += weight * db * db;
            p += weight * df * residual[i];
            q += weight * db * residual[i];
        }
        const double determinant = a * c - b * b;
        if (determinant <= 0.0) {
            break;
        }
        comb.f0 = Hertz(comb.f0.value() + (p * c - q * b) / determinant);
        comb.inharmonicity *= std::exp(std::clamp((a * q - b * p) / determinant, -0.7, 0.7));
    }
    return comb;
}

} // namespace quillbench
