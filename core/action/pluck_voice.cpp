#include "core/action/pluck_voice.hpp"

#include "core/analysis/beat_listener.hpp"
#include "core/dsp/fft.hpp"
#include "core/dsp/stiff_comb.hpp"
#include "core/support/contract.hpp"

#include <algorithm>
#include <cmath>
#include <complex>
#include <numbers>
#include <vector>

namespace quillbench {

namespace {

constexpr Seconds kShortestVoice{0.35};
constexpr double kFirstFall = 0.01; // 20 dB
constexpr double kDbPerNeper = 4.342944819;
constexpr double kLeastGlideCents = 0.1;
constexpr double kLeastGlideSure = 2.0; // of its own deviation

constexpr Seconds kAttackBefore{0.015};
constexpr Seconds kAttackAfter{0.060};
constexpr double kAttackPeriods = 6.0;
constexpr double kAttackTop = 8000.0;   // Hz
constexpr double kAttackBottom = 100.0; // Hz: below it the room rumbles
constexpr double kMainLobe = 2.0;       // bins of a Hann window on either side of a line

/// Power of the string so long after the pluck, against that at the pluck.
double powerAt(const StringReading& reading, double seconds) {
    double now = 0.0;
    double first = 0.0;
    for (const PartialReading& partial : reading.partials) {
        if (partial.decay60.count() <= 0.0) {
            continue;
        }
        const double power = partial.level.amplitude() * partial.level.amplitude();
        first += power;
        now += power * std::pow(10.0, -6.0 * seconds / partial.decay60.count());
    }
    return first > 0.0 ? now / first : 0.0;
}

/// Three times the time to fall 20 dB.
double sustainOf(const StringReading& reading) {
    double low = 0.0;
    double high = 60.0;
    for (int halving = 0; halving < 40; ++halving) {
        const double middle = 0.5 * (low + high);
        (powerAt(reading, middle) > kFirstFall ? low : high) = middle;
    }
    return 3.0 * low;
}

} // namespace

std::optional<PluckVoice> voiceOf(const StringReading& reading) {
    if (reading.standing == Standing::Nothing || reading.used < kShortestVoice ||
        reading.has(Warning::Clipped) || reading.has(Warning::TwoStrings)) {
        return std::nullopt;
    }
    PluckVoice voice;
    double power = 0.0;
    double heard = 0.0;
    double amplitudes = 0.0;
    double moment = 0.0;
    for (const PartialReading& partial : reading.partials) {
        const double amplitude = partial.level.amplitude();
        if (partial.decay60.count() <= 0.0 || partial.frequency.value() <= 0.0) {
            continue;
        }
        const auto place = static_cast<std::size_t>(partial.number) - 1;
        if (place < PluckVoice::kPartials) {
            voice.partials[place] = partial.level.value();
        }
        power += amplitude * amplitude;
        heard += amplitude * amplitude * std::pow(10.0, earWeight(partial.frequency) / 10.0);
        amplitudes += amplitude;
        moment += amplitude * partial.frequency.value();
    }
    if (power <= 0.0 || reading.pitch.value() <= 0.0) {
        return std::nullopt;
    }
    voice.level = Decibel::fromPower(power).value();
    voice.levelA = Decibel::fromPower(heard).value();
    voice.brightness = std::log2(moment / amplitudes / reading.pitch.value());
    voice.sustain = Seconds(sustainOf(reading));
    const double glide = reading.startSharpness.value();
    const double unsure = reading.startSharpnessUncertainty.value();
    if (glide > kLeastGlideCents && glide > kLeastGlideSure * unsure) {
        voice.displacement = 10.0 * std::log10(glide);
        voice.displacementU = kDbPerNeper * unsure / glide;
    }
    return voice;
}

std::optional<double> attackNoise(std::span<const float> samples,
                                  SampleRate rate,
                                  std::size_t pluck,
                                  Hertz string,
                                  double inharmonicity) {
    EXPECTS(string.value() >= 15.0 && string.value() <= 4000.0);
    const auto before = static_cast<std::size_t>(rate.frames(kAttackBefore).value());
    const Seconds after(std::max(kAttackAfter.count(), kAttackPeriods / string.value()));
    std::size_t count = before + static_cast<std::size_t>(rate.frames(after).value());
    count += count % 2;
    if (pluck < before || pluck - before + count > samples.size()) {
        return std::nullopt;
    }
    std::vector<double> frame(count);
    for (std::size_t i = 0; i < count; ++i) {
        const double turn = 2.0 * std::numbers::pi * static_cast<double>(i);
        const double window = 0.5 - 0.5 * std::cos(turn / static_cast<double>(count));
        frame[i] = window * static_cast<double>(samples[pluck - before + i]);
    }
    std::vector<std::complex<double>> spectrum(count / 2 + 1);
    RealFft(count).transform(frame, spectrum);
    const double bin = rate.hz() / static_cast<double>(count);
    const StiffComb comb{string.value() / std::sqrt(1.0 + inharmonicity), inharmonicity};
    double tone = 0.0;
    double between = 0.0;
    std::size_t places = 0;
    std::size_t used = 0;
    for (std::size_t k = 1; k < spectrum.size(); ++k) {
        const double hz = bin * static_cast<double>(k);
        if (hz > kAttackTop) {
            break;
        }
        const double number = std::max(1.0, std::round(hz / string.value()));
        // Stiff partials lie above n·f1: the nearest may be one less.
        const double away = std::min(std::abs(hz - comb.partial(number)),
                                     std::abs(hz - comb.partial(std::max(1.0, number - 1.0))));
        if (away <= kMainLobe * bin) {
            tone += std::norm(spectrum[k]);
        } else if (hz >= kAttackBottom) {
            between += std::norm(spectrum[k]);
            ++used;
        }
        places += hz >= kAttackBottom ? 1U : 0U;
    }
    if (tone <= 0.0 || between <= 0.0 || used == 0) {
        return std::nullopt;
    }
    // As if noise were heard everywhere, not only between the partials.
    return 10.0 *
           std::log10(between / tone * static_cast<double>(places) / static_cast<double>(used));
}

} // namespace quillbench
