#include "core/virtual/string_voice.hpp"

#include "core/instrument/sustain.hpp"
#include "core/support/contract.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace quillbench {

namespace {

constexpr double kLowestKnotHz = 20.0;
constexpr double kKnotsPerOctave = 6.0;
constexpr double kHighestPartialHz = 10'000.0;
constexpr double kCent = std::numbers::ln2 / 1200.0;
constexpr double kSixtyDecibels = 6.907755278982137; // ln 1000

double decibels(double value) {
    return std::pow(10.0, value / 20.0);
}

std::size_t partialCount(const VoiceFacts& facts) {
    const double highest = std::min(kHighestPartialHz, 0.45 * facts.rateHz);
    const double f0 = facts.pitch.value() / std::sqrt(1.0 + facts.inharmonicity);
    std::size_t count = 0;
    for (std::size_t n = 1; n <= StringVoice::kMaxModes / 2; ++n) {
        const double number = static_cast<double>(n);
        if (number * f0 * std::sqrt(1.0 + facts.inharmonicity * number * number) > highest) {
            break;
        }
        count = n;
    }
    return std::max<std::size_t>(count, 1);
}

} // namespace

SoundboardCurve::SoundboardCurve(Random random) {
    for (double& knot : rippleDb_) {
        knot = 4.0 * random.normal();
    }
}

double SoundboardCurve::gain(Hertz at) const {
    const double f = at.value();
    const double place = std::clamp(
        kKnotsPerOctave * std::log2(f / kLowestKnotHz), 0.0, static_cast<double>(kKnots) - 1.001);
    const auto knot = static_cast<std::size_t>(place);
    const double within = place - static_cast<double>(knot);
    const double ripple = (1.0 - within) * rippleDb_[knot] + within * rippleDb_[knot + 1];
    // A small board: little below its first resonance near 110 Hz, falling again in the high treble.
    const double bass = f * f / (f * f + 140.0 * 140.0);
    const double treble = 1.0 / std::sqrt(1.0 + f * f / (6000.0 * 6000.0));
    return bass * bass * treble * decibels(ripple);
}

std::array<double, StringVoice::kMaxModes / 2>
pluckShape(double pluckPoint, std::size_t partials, Hertz pitch) {
    EXPECTS(pluckPoint > 0.0 && pluckPoint < 1.0);
    EXPECTS(partials <= StringVoice::kMaxModes / 2);
    std::array<double, StringVoice::kMaxModes / 2> shape{};
    double sum = 0.0;
    for (std::size_t i = 0; i < partials; ++i) {
        const double n = static_cast<double>(i + 1);
        // The plectrum is not a point: its width and the time it takes to leave soften the corner.
        const double softness = 1.0 / (1.0 + std::pow(n * pitch.value() / 12'000.0, 2.0));
        shape[i] = std::sin(n * std::numbers::pi * pluckPoint) / (n * n) * softness;
        sum += n * n * shape[i] * shape[i];
    }
    for (double& a : shape) {
        a /= std::sqrt(sum);
    }
    return shape;
}

StringVoice drawVoice(const VoiceFacts& facts, const SoundboardCurve& soundboard, Random random) {
    StringVoice voice;
    const std::size_t partials = partialCount(facts);
    voice.modes = 2 * partials;
    const double f1 = facts.pitch.value();
    const double f0 = f1 / std::sqrt(1.0 + facts.inharmonicity);
    const auto shape = pluckShape(facts.pluckPoint, partials, facts.pitch);
    const double damperT60 = 0.12 + 0.16 * std::sqrt(60.0 / f1);
    const double stringT60 = std::exp(0.12 * random.normal());
    double power = 0.0;
    for (std::size_t i = 0; i < partials; ++i) {
        const double n = static_cast<double>(i + 1);
        const double f = n * f0 * std::sqrt(1.0 + facts.inharmonicity * n * n);
        const std::size_t across = 2 * i;    // to the soundboard: loud, short
        const std::size_t along = 2 * i + 1; // along the soundboard: soft, long
        const double angle = random.uniform(0.25, 0.75);
        voice.direction[across] = std::cos(angle);
        voice.direction[along] = std::sin(angle);
        const double gain = n * soundboard.gain(Hertz(f)) * decibels(4.0 * random.normal());
        const double sign = random.uniform() < 0.5 ? -1.0 : 1.0;
        voice.pickup[across] = sign * gain;
        voice.pickup[along] = sign * gain * decibels(random.uniform(-16.0, -3.0));
        const double split = random.uniform(0.3, 2.0) * (random.uniform() < 0.5 ? -1.0 : 1.0);
        const double rate =
            kSixtyDecibels * sixtyDecibelsPerSecond(facts.pitch, Hertz(f)) * stringT60;
        voice.decay[across] = rate * std::exp(0.3 * random.normal());
        voice.decay[along] = voice.decay[across] * random.uniform(0.3, 0.6);
        if (facts.falseBeatCents > 0.0) {
            voice.pickup[along] =
                voice.pickup[across] * 0.7 * voice.direction[across] / voice.direction[along];
            voice.decay[along] = voice.decay[across];
        }
        const double width = facts.falseBeatCents > 0.0 ? facts.falseBeatCents : split;
        // The loud direction lies nearer to the comb than the soft one.
        voice.split[across] = std::exp(0.2 * width * kCent);
        voice.split[along] = std::exp(-0.8 * width * kCent);
        const double felt = kSixtyDecibels / damperT60;
        // The felt takes hold of a mode more or less, as it lies to its nodes: the sound of a released key
        // falls 20 dB in an eighth of a second and then lingers.
        voice.damped[across] = felt * std::exp(random.uniform(-2.0, 0.6));
        voice.damped[along] = voice.damped[across] * random.uniform(0.4, 0.9);
        for (const std::size_t m : {across, along}) {
            const double heard = voice.pickup[m] * voice.direction[m] * shape[i];
            power += 0.5 * heard * heard;
        }
    }
    const double loudness = 0.045 * decibels(1.2 * random.normal()) / std::sqrt(power);
    for (double& gain : voice.pickup) {
        gain *= loudness;
    }
    // A plectrum lifts the string by about half a millimetre in the treble, 1.5 mm in the bass; the sharpness
    // is half the mean extra tension, E·A/T · h² / (8·L²·p·(1−p)).
    const double height =
        0.62e-3 * std::pow(facts.lengthMetres / 0.35, 0.6) * std::exp(0.2 * random.normal());
    const double p = facts.pluckPoint;
    const double strain =
        height * height / (8.0 * facts.lengthMetres * facts.lengthMetres * p * (1.0 - p));
    voice.sharpness = std::clamp(facts.stiffnessOverTension * strain, 0.3 * kCent, 5.0 * kCent);
    voice.displacement = decibels(0.8 * random.normal());
    return voice;
}

} // namespace quillbench
