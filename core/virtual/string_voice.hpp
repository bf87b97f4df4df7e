#pragma once

#include "core/instrument/instrument.hpp"
#include "core/support/random.hpp"
#include "core/units/hertz.hpp"

#include <array>
#include <cstddef>

namespace quillbench {

/// How the soundboard answers at each frequency: a broad curve with ripples of its own, the same for every
/// string of one instrument.
class SoundboardCurve {
public:
    explicit SoundboardCurve(Random random);

    /// Gain at a frequency, 1 where it answers best. **Range** > 0 Hz.
    [[nodiscard]] double gain(Hertz at) const;

private:
    static constexpr std::size_t kKnots = 64;
    std::array<double, kKnots> rippleDb_{};
};

/// What a string would be like if it were drawn, hung and plucked: everything about its sound that does
/// not change while one plays. Each partial is two modes, one in each direction of motion.
struct StringVoice {
    static constexpr std::size_t kMaxModes = 80;

    std::size_t modes = 0;                  ///< even; a multiple of two a partial
    std::array<double, kMaxModes> split{};  ///< frequency re the stiff comb, near 1
    std::array<double, kMaxModes> decay{};  ///< amplitude decay rate, 1/s
    std::array<double, kMaxModes> damped{}; ///< what the damper adds to it, 1/s
    std::array<double, kMaxModes> pickup{}; ///< heard amplitude for one unit of displacement
    std::array<double, kMaxModes>
        direction{}; ///< part of the displacement in this direction of motion
    double sharpness =
        0.0; ///< relative sharpness just after an ordinary pluck (tension modulation)
    double displacement = 1.0; ///< strength of its plectrum re the register's, about 1
};

/// Facts of a string that its voice is drawn from.
struct VoiceFacts {
    Hertz pitch; ///< of partial 1
    double inharmonicity = 0.0;
    double stiffnessOverTension = 200.0; ///< E·A/T of the wire
    double lengthMetres = 0.5;
    double pluckPoint = 0.15; ///< as a fraction of the speaking length
    double falseBeatCents = 0.0;
    double rateHz = 48000.0;
};

/// Draws a string's voice. The constants are fitted by eye to the recordings named in DEVELOPERS.md
/// "Virtual instrument" (spectra, decays, glides of one Italian-style instrument), decay also to the ranges of
/// [Valimaki2004].
[[nodiscard]] StringVoice
drawVoice(const VoiceFacts& facts, const SoundboardCurve& soundboard, Random random);

/// Displacement of mode-pair `partial` of an ordinary pluck at a point, normalised so that
/// Σ n²·A_n² = 1 over `partials`. **Source** [Fletcher1998] ch. 2.
[[nodiscard]] std::array<double, StringVoice::kMaxModes / 2>
pluckShape(double pluckPoint, std::size_t partials, Hertz pitch);

} // namespace quillbench
