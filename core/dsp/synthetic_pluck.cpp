#include "core/dsp/synthetic_pluck.hpp"

#include "core/support/contract.hpp"
#include "core/support/random.hpp"

#include <algorithm>
#include <cmath>
#include <complex>
#include <numbers>

namespace quillbench {

namespace {

constexpr double kHighestSynthesised = 12000.0;
constexpr int kMostSynthesised = 90;

/// Partials below this share of the strongest cannot be heard and are left out.
constexpr double kFaintest = 1e-5;

/// Frames over which a partial's frequency is held while the pitch sinks: 5 cents/s move a 10 kHz partial by
/// less than 1e-3 turn in them.
constexpr int kStep = 64;

/// The string leaves the plectrum within this time. Common practice, no source.
constexpr double kAttackS = 0.0004;

} // namespace

Hertz SyntheticString::restPitch() const {
    return flexible * std::sqrt(1.0 + inharmonicity);
}

SyntheticPluck::SyntheticPluck(const SyntheticString& string) {
    EXPECTS(string.flexible.value() > 0.0 && string.inharmonicity >= 0.0);
    EXPECTS(string.pluckPoint > 0.0 && string.pluckPoint < 0.5);
    Random random(string.seed);
    double power = 0.0;
    for (int n = 1; n <= kMostSynthesised; ++n) {
        const double hz = n * string.flexible.value() *
                          std::sqrt(1.0 + string.inharmonicity * static_cast<double>(n) * n);
        if (hz > kHighestSynthesised) {
            break;
        }
        // Force on the bridge of an ideal plucked string falls as 1/n; the plectrum rounds the corner.
        const double comb = std::abs(std::sin(std::numbers::pi * n * string.pluckPoint)) / n;
        const double corner = 1.0 / (1.0 + std::pow(hz / string.corner.value(), 2.0));
        const double body = 1.0 / std::sqrt(1.0 + std::pow(string.bodyLow.value() / hz, 6.0));
        const double scatter = std::pow(10.0, string.scatter * random.normal() / 20.0);
        const double amplitude = std::max(comb, 0.003 / n) * corner * body * scatter;
        const double decay = 6.908 / string.decay60.count() *
                             (1.0 + 0.05 * (n - 1) + std::pow(hz / 4000.0, 1.5)) *
                             std::exp(0.25 * random.normal());
        const double phase = random.uniform(0.0, 2.0 * std::numbers::pi);
        const double splitCents = string.split.value() * random.normal();
        const Partial first{n, hz, amplitude, phase, decay};
        const Partial second{n,
                             transpose(Hertz(hz), Cents(splitCents)).value(),
                             amplitude * string.second * random.uniform(0.5, 1.0),
                             phase + random.normal(),
                             decay * random.uniform(0.5, 1.0)};
        partials_.push_back(first);
        partials_.push_back(second);
        power += 0.5 * (first.amplitude * first.amplitude + second.amplitude * second.amplitude);
    }
    for (Partial& partial : partials_) {
        partial.amplitude /= std::sqrt(power);
    }
    energyDecay_ = 2.0 * 6.908 / string.decay60.count();
    glideRatio_ = std::exp2(string.glide.value() / 1200.0) - 1.0;
}

void SyntheticPluck::addTo(std::span<float> sound,
                           SampleRate rate,
                           double atFrame,
                           Decibel level,
                           std::optional<SyntheticRelease> release) const {
    const auto begin = static_cast<std::int64_t>(std::max(0.0, std::ceil(atFrame)));
    const auto end = static_cast<std::int64_t>(sound.size());
    if (begin >= end) {
        return;
    }
    const std::size_t count = static_cast<std::size_t>(end - begin);
    std::vector<double> sum(count, 0.0);
    for (const Partial& partial : partials_) {
        if (partial.amplitude < kFaintest || partial.hz > 0.47 * rate.hz()) {
            continue;
        }
        for (std::size_t block = 0; block < count; block += kStep) {
            const double t =
                (static_cast<double>(begin) + static_cast<double>(block) - atFrame) / rate.hz();
            const double sunk = glideRatio_ * (1.0 - std::exp(-energyDecay_ * t)) / energyDecay_;
            const double turn = partial.phase + 2.0 * std::numbers::pi * partial.hz * (t + sunk);
            double damping = partial.decay;
            double lost = partial.decay * t;
            if (release && t > release->after.count()) {
                const double extra = 6.908 / release->decay60.count();
                lost += extra * (t - release->after.count());
                damping += extra;
            }
            if (lost > 25.0) {
                break;
            }
            const double now =
                partial.hz * (1.0 + glideRatio_ * std::exp(-energyDecay_ * t)) / rate.hz();
            std::complex<double> value = std::polar(partial.amplitude * std::exp(-lost), turn);
            const std::complex<double> step =
                std::polar(std::exp(-damping / rate.hz()), 2.0 * std::numbers::pi * now);
            const std::size_t stop = std::min(count, block + kStep);
            for (std::size_t i = block; i < stop; ++i) {
                sum[i] += value.real();
                value = {value.real() * step.real() - value.imag() * step.imag(),
                         value.real() * step.imag() + value.imag() * step.real()};
            }
        }
    }
    const double gain = level.amplitude();
    for (std::size_t i = 0; i < count; ++i) {
        const double t =
            (static_cast<double>(begin) + static_cast<double>(i) - atFrame) / rate.hz();
        const double rise =
            t < kAttackS ? 0.5 - 0.5 * std::cos(std::numbers::pi * t / kAttackS) : 1.0;
        sound[static_cast<std::size_t>(begin) + i] += static_cast<float>(gain * rise * sum[i]);
    }
}

} // namespace quillbench
