#pragma once

#include "core/dsp/phase_track.hpp"
#include "core/dsp/string_priors.hpp"

#include <array>
#include <span>

namespace quillbench {

/// Level and decay of one partial.
struct PartialDecay {
    int n = 1;
    double hz = 0;
    double power = 0; ///< at the pluck
    double rate = 0;  ///< of the amplitude, 1/s
};

/// The energy of the string's motion after the pluck, S(t)/S(0), heard and foretold: a string's tension, and
/// with it its pitch, rises with the mean square of its slope, Σ n²·A_n². Radiated pressure goes about as
/// n·A_n, so the squared amplitudes of the partials stand for the terms of the sum.
/// **Source** tension modulation [Legge1984], [Tolonen2000].
class EnergyModel {
public:
    static constexpr double kEnd = 2.5; ///< seconds after the pluck that the table covers

    /// Level and decay of each track, with `priors` where little was heard.
    static PartialDecay decayOf(const PhaseTrack& track, const StringPriors& priors, double ratio);

    /// **Range** at least one partial with power.
    explicit EnergyModel(std::span<const PartialDecay> partials);

    /// S(t)/S(0). **Range** 0 to kEnd.
    [[nodiscard]] double energy(double t) const;

    /// ∫ S/S(0) from the pluck to t, in seconds.
    [[nodiscard]] double integral(double t) const;

    /// What the least-squares slope of a phase over [from, to] makes of S: its mean under a parabola.
    [[nodiscard]] double slopeMean(double from, double to) const;

private:
    static constexpr std::size_t kSteps = 125;
    std::array<double, kSteps + 1> energy_{};
    std::array<double, kSteps + 1> integral_{};
};

} // namespace quillbench
