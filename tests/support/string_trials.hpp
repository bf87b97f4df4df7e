#pragma once

#include "core/analysis/target.hpp"
#include "core/dsp/synthetic_pluck.hpp"
#include "core/support/random.hpp"
#include "core/units/decibel.hpp"
#include "core/units/frames.hpp"
#include "core/units/hertz.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numbers>
#include <span>
#include <vector>

/// Plucks of closed-form strings in rooms, drawn by chance from a seed: common ground of the tests and
/// benchmarks of what listens.
namespace quillbench::trials {

/// A string such as real ones are: inharmonicity and decay follow the measured strings named in DEVELOPERS.md
/// within a factor, the rest is drawn widely.
inline SyntheticString drawString(Random& random, double hz) {
    SyntheticString string;
    string.inharmonicity =
        1.6e-5 * (1.0 + std::pow(hz / 110.0, 1.5)) * std::exp(0.4 * random.normal());
    string.flexible = Hertz(hz / std::sqrt(1.0 + string.inharmonicity));
    string.pluckPoint = random.uniform(0.08, 0.24);
    string.corner = Hertz(std::max(1.2 * hz, random.uniform(1500.0, 4000.0)));
    string.bodyLow = Hertz(random.uniform(60.0, 200.0));
    string.decay60 = Seconds(std::clamp(12.0 * std::pow(40.0 / hz, 0.55), 1.0, 14.0) *
                             std::exp(0.25 * random.normal()));
    string.scatter = random.uniform(3.0, 6.0);
    string.split = Cents(random.uniform(0.3, 1.2));
    string.second = random.uniform(0.1, 0.5);
    string.glide = Cents(random.uniform(0.3, 3.0));
    string.seed = random.bits();
    return string;
}

inline double rms(std::span<const float> sound) {
    double sum = 0.0;
    for (const float sample : sound) {
        sum += static_cast<double>(sample) * static_cast<double>(sample);
    }
    return std::sqrt(sum / static_cast<double>(std::max<std::size_t>(1, sound.size())));
}

/// White noise, or noise whose power falls 3 dB an octave (a sum of first-order sections, Kellet's way).
inline void addNoise(std::span<float> sound, Random& random, Decibel level, bool pink) {
    const double gain = level.amplitude();
    double a = 0.0;
    double b = 0.0;
    double c = 0.0;
    for (float& sample : sound) {
        const double white = random.normal();
        a = 0.99765 * a + white * 0.0990460;
        b = 0.96300 * b + white * 0.2965164;
        c = 0.57000 * c + white * 1.0526913;
        // 1.9 is the RMS of the sum.
        const double noise = pink ? (a + b + c + white * 0.1848) / 1.9 : white;
        sample += static_cast<float>(gain * noise);
    }
}

inline void
addHum(std::span<float> sound, SampleRate rate, Random& random, double mainsHz, Decibel level) {
    const double hz = mainsHz * (1.0 + random.uniform(-0.001, 0.001));
    for (int k = 1; k <= 10; ++k) {
        const double amplitude = level.amplitude() * std::sqrt(2.0) * random.uniform(0.3, 1.0) / k;
        const double phase = random.uniform(0.0, 2.0 * std::numbers::pi);
        for (std::size_t i = 0; i < sound.size(); ++i) {
            sound[i] +=
                static_cast<float>(amplitude * std::cos(2.0 * std::numbers::pi * k * hz *
                                                            static_cast<double>(i) / rate.hz() +
                                                        phase));
        }
    }
}

/// A short wooden blow: a jack that falls back, a key that meets its rail, a knuckle.
inline void
addKnock(std::span<float> sound, SampleRate rate, Random& random, double atFrame, Decibel level) {
    const auto begin = static_cast<std::size_t>(std::max(0.0, atFrame));
    std::vector<double> modeHz(6);
    std::vector<double> modeS(6);
    for (std::size_t m = 0; m < modeHz.size(); ++m) {
        modeHz[m] = 80.0 * std::exp(random.uniform(0.0, 3.5));
        modeS[m] = random.uniform(0.003, 0.02);
    }
    for (std::size_t i = begin; i < sound.size(); ++i) {
        const double t = static_cast<double>(i - begin) / rate.hz();
        if (t > 0.2) {
            break;
        }
        double value = 0.5 * random.normal() * std::exp(-t / 0.004);
        for (std::size_t m = 0; m < modeHz.size(); ++m) {
            value += std::exp(-t / modeS[m]) * std::sin(2.0 * std::numbers::pi * modeHz[m] * t);
        }
        sound[i] += static_cast<float>(level.amplitude() * value);
    }
}

/// One choir, chromatic from `lowestMidi` (as 8′ keys) upwards; `footing` is 0.5, 1 or 2 for 16′, 8′ and 4′.
inline std::vector<ExpectedString>
choirStrings(std::size_t choir, double footing, double a4Hz, int lowestMidi, int keys) {
    std::vector<ExpectedString> strings;
    for (int key = 0; key < keys; ++key) {
        ExpectedString string;
        string.id = StringId{choir, static_cast<std::size_t>(key)};
        string.target = transpose(Hertz(a4Hz * footing), Cents(100.0 * (lowestMidi + key - 69)));
        strings.push_back(string);
    }
    return strings;
}

} // namespace quillbench::trials
