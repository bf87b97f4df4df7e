#include "core/action/pressed_key.hpp"

#include "core/dsp/fft.hpp"
#include "core/support/contract.hpp"
#include "core/support/median.hpp"

#include <algorithm>
#include <cmath>
#include <complex>
#include <numbers>
#include <utility>
#include <vector>

namespace quillbench {

namespace {

constexpr double kLookedAt = 0.25;          // s
constexpr double kHighestLookedAt = 3000.0; // Hz
constexpr int kMostLookedAt = 64;
constexpr double kSpeaksAgainst = 12.0; // dB that a partial has to rise to speak for its key
constexpr double kMostSpeaks = 30.0;    // dB
constexpr double kAside = 14.0;         // cents: strings are not quite in tune
constexpr double kAround = 150.0;       // Hz: knocks and dampers fill what lies between partials
constexpr double kQuiet = 1e-12;        // power re full scale, added: silence rises by nothing

/// Power over frequency of a piece of sound, Hann window, four times finer than its length allows.
class FineSpectrum {
public:
    FineSpectrum(std::span<const float> sound, double rateHz) {
        std::size_t size = 4;
        while (size < 4 * sound.size()) {
            size *= 2;
        }
        std::vector<double> padded(size, 0.0);
        const double step = 2.0 * std::numbers::pi / static_cast<double>(sound.size());
        for (std::size_t i = 0; i < sound.size(); ++i) {
            const double window = 0.5 - 0.5 * std::cos(step * (static_cast<double>(i) + 0.5));
            padded[i] = window * static_cast<double>(sound[i]);
        }
        std::vector<std::complex<double>> spectrum(size / 2 + 1);
        RealFft(size).transform(padded, spectrum);
        const double scale = 4.0 / static_cast<double>(sound.size() * sound.size());
        power_.reserve(spectrum.size());
        for (const std::complex<double>& one : spectrum) {
            power_.push_back(scale * std::norm(one));
        }
        perHz_ = static_cast<double>(size) / rateHz;
    }

    [[nodiscard]] double strongestNear(double hz) const {
        const double aside = std::exp2(kAside / 1200.0);
        const auto bin = [&](double at) {
            return std::min(power_.size() - 1,
                            static_cast<std::size_t>(std::lround(std::max(0.0, at * perHz_))));
        };
        const auto from = power_.begin() + static_cast<std::ptrdiff_t>(bin(hz / aside));
        const auto to = power_.begin() + static_cast<std::ptrdiff_t>(bin(hz * aside)) + 1;
        return *std::max_element(from, to);
    }

    /// What most of the spectrum around has: strings are lines, a knock is not.
    [[nodiscard]] double usualNear(double hz) const {
        const auto at = [&](double place) {
            const auto last = static_cast<double>(power_.size() - 1);
            return power_.begin() + std::lround(std::clamp(place * perHz_, 0.0, last));
        };
        std::vector<double> around(at(hz - kAround), at(hz + kAround) + 1);
        return medianOf(std::move(around));
    }

private:
    std::vector<double> power_;
    double perHz_ = 1.0; ///< bins
};

/// How much the partials of a key speak for it, dB over partials.
double speaksFor(const KeySound& key,
                 const FineSpectrum& before,
                 const FineSpectrum& after,
                 double rateHz) {
    const double f0 = key.pitch.value() / std::sqrt(1.0 + key.inharmonicity);
    double sum = 0.0;
    for (int n = 1; n <= kMostLookedAt; ++n) {
        const double hz = n * f0 * std::sqrt(1.0 + key.inharmonicity * n * n);
        if (hz > std::min(kHighestLookedAt, 0.45 * rateHz) && n > 2) {
            break;
        }
        const double ground = std::max(before.strongestNear(hz), after.usualNear(hz));
        const double rise =
            10.0 * std::log10((after.strongestNear(hz) + kQuiet) / (ground + kQuiet));
        sum += std::clamp(rise, 0.0, kMostSpeaks) - kSpeaksAgainst;
    }
    return sum;
}

/// Where the quietest piece of `length` begins.
std::size_t quietestOf(std::span<const float> sound, std::size_t length) {
    std::vector<double> upTo{0.0};
    upTo.reserve(sound.size() + 1);
    for (const float one : sound) {
        upTo.push_back(upTo.back() + static_cast<double>(one) * static_cast<double>(one));
    }
    std::size_t best = 0;
    for (std::size_t at = 0; at + length < upTo.size(); ++at) {
        if (upTo[at + length] - upTo[at] < upTo[best + length] - upTo[best]) {
            best = at;
        }
    }
    return best;
}

} // namespace

std::optional<std::size_t> pressedKey(std::span<const float> samples,
                                      SampleRate rate,
                                      Seconds begins,
                                      Seconds sounds,
                                      std::span<const KeySound> keys) {
    EXPECTS(!keys.empty());
    const auto frames = [&](double seconds) {
        return static_cast<std::size_t>(std::max(0.0, seconds * rate.hz()));
    };
    const std::size_t length = frames(kLookedAt);
    const std::size_t before = std::min(frames(begins.count()), samples.size());
    const std::size_t after = frames(sounds.count());
    if (before < length || after + length > samples.size()) {
        return std::nullopt;
    }
    const std::size_t still = quietestOf(samples.first(before), length);
    const FineSpectrum quiet(samples.subspan(still, length), rate.hz());
    const FineSpectrum loud(samples.subspan(after, length), rate.hz());
    std::optional<std::size_t> best;
    double most = 0.0;
    for (const KeySound& key : keys) {
        EXPECTS(key.pitch.value() >= 15.0 && key.pitch.value() <= 4000.0);
        const double said = speaksFor(key, quiet, loud, rate.hz());
        if (said > most) {
            most = said;
            best = key.key;
        }
    }
    return best;
}

} // namespace quillbench
