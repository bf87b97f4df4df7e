#pragma once

#include "core/analysis/snapshot.hpp"
#include "core/units/frames.hpp"
#include "core/units/hertz.hpp"

#include <array>
#include <cstddef>
#include <optional>
#include <span>

namespace quillbench {

/// How one pluck sounded.
struct PluckVoice {
    static constexpr std::size_t kPartials = 12;
    static constexpr double kUnheard = -200.0;

    double level = 0.0;  ///< dB re full scale: power of the string's partials at the pluck
    double levelA = 0.0; ///< the same, each partial weighted by the A curve [IEC61672]
    /// Level of each of the first partials, dB; kUnheard where it was not.
    std::array<double, kPartials> partials = allUnheard();
    double brightness = 0.0; ///< octaves of the partials' centre of amplitude above partial 1
    Seconds sustain{0.0};    ///< time in which the string's power falls 60 dB, from its first 20 dB
    /// dB: what is no partial of the string around its beginning, against the partials.
    std::optional<double> attack;
    /// dB re 1 cent of starting sharpness; it goes with the square of the displacement, so that twice as far out is
    /// 6 dB more, as the level is [Legge1984]. Nothing where the glide is too small to be measured.
    std::optional<double> displacement;
    double displacementU = 0.0; ///< dB, one standard deviation

private:
    static constexpr std::array<double, kPartials> allUnheard() {
        std::array<double, kPartials> none{};
        none.fill(kUnheard);
        return none;
    }
};

/// What the finished reading of a pluck says about its sound; nothing where it is not sure enough or ended
/// before 0.35 s.
[[nodiscard]] std::optional<PluckVoice> voiceOf(const StringReading& reading);

/// Noise of plectrum and jack at a beginning: power that lies between the partials of the string, within 15 ms
/// before to 60 ms (at least 6 periods) after the pluck, against the power at its partials, in dB.
/// **Range** `pluck` is a sample of the sound; string 15 to 4 000 Hz. Nothing where the sound does not reach so far.
[[nodiscard]] std::optional<double> attackNoise(std::span<const float> samples,
                                                SampleRate rate,
                                                std::size_t pluck,
                                                Hertz string,
                                                double inharmonicity);

} // namespace quillbench
