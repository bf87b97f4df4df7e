#pragma once

#include "core/dsp/constants.hpp"
#include "core/dsp/phase_track.hpp"
#include "core/dsp/string_priors.hpp"

#include <array>
#include <span>

namespace quillbench {

/// How one partial fades.
struct PartialDecay {
    int n = 1;
    double hz = 0;
    double power = 0; ///< at the pluck, as the whole fall foretells it
    double rate = 0;  ///< of the amplitude over what was heard, 1/s
    double late = 0;  ///< the same near the end of what was heard; what comes is foretold with it
};

/// The energy of the string's motion after the pluck, S(t)/S(0), heard and foretold: a string's tension, and
/// with it its pitch, rises with the mean square of its slope, Σ n²·A_n². Radiated pressure goes about as
/// n·A_n, so the squared amplitudes of the partials stand for the terms of the sum.
/// **Source** tension modulation [Legge1984], [Tolonen2000].
class EnergyModel {
public:
    static constexpr double kEnd = kSustainTo; ///< seconds after the pluck that the table covers

    /// Level and decay of each track, with `priors` where little was heard.
    static PartialDecay decayOf(const PhaseTrack& track, const StringPriors& priors, double ratio);

    /// The heard powers, joined by straight lines in decibels; before and behind them the decay.
    /// **Range** at least one track, as many decays, each track with two points or more.
    EnergyModel(std::span<const PhaseTrack> tracks, std::span<const PartialDecay> decays);

    /// S(t)/S(0). **Range** 0 to kEnd.
    [[nodiscard]] double energy(double t) const;

    /// ∫ S/S(0) from the pluck to t, in seconds.
    [[nodiscard]] double integral(double t) const;

    /// What the least-squares slope of a phase over [from, to] makes of S: its mean under a parabola.
    [[nodiscard]] double slopeMean(double from, double to) const;

private:
    void addPartial(const PhaseTrack& track, const PartialDecay& decay);

    static constexpr std::size_t kSteps = 125;
    static constexpr double kStep = kEnd / static_cast<double>(kSteps);
    std::array<double, kSteps + 1> energy_{};
    std::array<double, kSteps + 1> integral_{};
};

} // namespace quillbench
