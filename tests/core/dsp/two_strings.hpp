#pragma once

#include "core/dsp/beat_estimator.hpp"
#include "core/support/random.hpp"

#include <cmath>
#include <cstdint>
#include <numbers>
#include <vector>

namespace quillbench::test {

inline constexpr double kRateHz = 44100.0;

/// A string in closed form, written apart from the program's own strings: partials n·f0·√(1 + B·n²), amplitudes
/// 1/n under the comb of a plucking point, decay growing with frequency, no glide and no false beat.
struct PlainString {
    double f0Hz = 200.0;
    double inharmonicity = 0.0;
    double amplitude = 0.1;
    double decay60 = 6.0; ///< s, of partial 1
    std::uint64_t seed = 1;
    double secondCents =
        0.0; ///< of every partial, by turns above and below: a second polarisation; 0: none

    [[nodiscard]] double partial(int n) const {
        return n * f0Hz * std::sqrt(1.0 + inharmonicity * n * n);
    }

    void addTo(std::vector<double>& sound, double pluckS) const {
        Random random(seed);
        for (int n = 1; n <= 30 && partial(n) < 8000.0; ++n) {
            const double size =
                amplitude / n * std::abs(std::sin(std::numbers::pi * 0.137 * n)) + 1e-5;
            const double decay = 6.908 / decay60 * (1.0 + partial(n) / 1500.0);
            const double phase = 2.0 * std::numbers::pi * random.uniform();
            addLine(sound, pluckS, partial(n), size, decay, phase);
            if (std::abs(secondCents) > 0.0) {
                const double cents = n % 2 == 0 ? secondCents : -secondCents;
                const double turned = phase + random.uniform() - 0.5;
                addLine(sound,
                        pluckS,
                        partial(n) * std::exp2(cents / 1200.0),
                        0.35 * size,
                        0.6 * decay,
                        turned);
            }
        }
    }

    static void addLine(std::vector<double>& sound,
                        double pluckS,
                        double hz,
                        double size,
                        double decay,
                        double phase) {
        const auto first = static_cast<std::size_t>(pluckS * kRateHz);
        for (std::size_t i = first; i < sound.size(); ++i) {
            const double t = static_cast<double>(i) / kRateHz - pluckS;
            sound[i] +=
                size * std::exp(-decay * t) * std::cos(2.0 * std::numbers::pi * hz * t + phase);
        }
    }
};

inline std::vector<double> noise(double seconds, double deviation, std::uint64_t seed) {
    Random random(seed);
    std::vector<double> sound(static_cast<std::size_t>(seconds * kRateHz));
    for (double& x : sound) {
        x = deviation * random.normal();
    }
    return sound;
}

inline constexpr double kPluckS = 0.1;

/// Both strings plucked together, quiet noise under them.
inline std::vector<double> together(const PlainString& lower, const PlainString& upper) {
    std::vector<double> sound = noise(2.3, 1e-5, 77);
    lower.addTo(sound, kPluckS);
    upper.addTo(sound, kPluckS);
    return sound;
}

/// The lower string alone, listened to as before a pair.
inline std::optional<KnownString> reference(const PlainString& lower, int closely) {
    std::vector<double> sound = noise(2.3, 1e-5, 78);
    PlainString again = lower;
    again.seed += 1000;
    again.addTo(sound, kPluckS);
    return hearAlone(sound,
                     SampleRate(kRateHz),
                     Seconds(kPluckS),
                     Seconds(2.2),
                     Hertz(lower.partial(1)),
                     Cents(60.0),
                     meetingOnes(closely));
}

inline BeatReading listen(const std::vector<double>& sound, const PairQuestion& question) {
    return hearPair(sound,
                    SampleRate(kRateHz),
                    Seconds(kPluckS),
                    Seconds(kPluckS),
                    Seconds(kPluckS + 2.0),
                    question);
}

} // namespace quillbench::test
