#pragma once

#include "core/units/cents.hpp"
#include "core/units/decibel.hpp"
#include "core/units/frames.hpp"
#include "core/units/hertz.hpp"

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

namespace quillbench {

/// What makes a plucked string sound as it does; everything that is left to chance follows from the seed.
struct SyntheticString {
    Hertz flexible;           ///< f0: what the string would sound without stiffness; > 0
    double inharmonicity = 0; ///< B of f_n = n·f0·√(1 + B·n²); ≥ 0
    double pluckPoint = 0.13; ///< from the nut, as a fraction of the length; 0 < … < 0.5
    Hertz corner{2500.0};     ///< partials above it are weaker: width of plectrum and bridge
    Hertz bodyLow{120.0};     ///< partials below it radiate less, 18 dB an octave
    Seconds decay60{6.0};     ///< of partial 1
    double scatter = 4.0;     ///< standard deviation of partials' levels about the smooth law, dB
    Cents split{0.8};         ///< distance of the second polarisation, standard deviation
    double second = 0.3;      ///< amplitude of the second polarisation, 0 … 1
    Cents glide{1.0};         ///< sharpness at the pluck, gone with the square of the amplitude
    std::uint64_t seed = 1;

    /// f1 = f0·√(1+B), at rest.
    [[nodiscard]] Hertz restPitch() const;
};

/// When and how a damper takes hold.
struct SyntheticRelease {
    Seconds after{1.0};    ///< from the pluck
    Seconds decay60{0.15}; ///< of every partial from then on
};

/// A plucked string in closed form: a sum of decaying partials, each of two polarisations, with stiffness, the
/// comb of the plucking point, decay that grows with frequency, and a pitch that sinks with the energy.
/// For tests, demonstrations and the reference tone; it knows nothing of rooms and neighbours.
/// **Source** pluck comb and stiffness [Fletcher1964]; sinking pitch [Legge1984].
class SyntheticPluck {
public:
    struct Partial {
        int number = 0;
        double hz = 0;        ///< at rest
        double amplitude = 0; ///< at the pluck, for an RMS of 1 there
        double phase = 0;     ///< radians
        double decay = 0;     ///< 1/s, amplitude
    };

    explicit SyntheticPluck(const SyntheticString& string);

    /// Adds the pluck to `sound`; its RMS over the first moments is `level`. **Range** atFrame may be fractional
    /// and outside of `sound`.
    void addTo(std::span<float> sound,
               SampleRate rate,
               double atFrame,
               Decibel level,
               std::optional<SyntheticRelease> release = std::nullopt) const;

    /// Both polarisations, the stronger first for each number.
    [[nodiscard]] const std::vector<Partial>& partials() const { return partials_; }

private:
    std::vector<Partial> partials_;
    double glideRatio_ = 0;
    double energyDecay_ = 1; ///< 1/s, of the energy of motion
};

} // namespace quillbench
