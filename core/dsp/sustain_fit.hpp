#pragma once

#include "core/dsp/energy_model.hpp"
#include "core/dsp/phase_track.hpp"
#include "core/dsp/stiff_comb.hpp"
#include "core/dsp/string_priors.hpp"

#include <array>
#include <span>

namespace quillbench {

/// Mean frequency of one partial over its time by the definition of the sustain pitch.
struct MeanPartial {
    double hz = 0;
    double sdCents = 0;
};

/// The sustain pitch as it can be foretold from what was heard.
struct SustainFit {
    double pitchHz = 0;
    double pitchSdCents = 0;
    StiffComb comb; ///< of the sustain pitch
    double lnBSd = 0;
    double glideCents = 0; ///< sharpness at the pluck against the string at rest
    double startCents = 0; ///< sharpness at the pluck against the sustain pitch
    double startSdCents = 0;
    double scatterCents = 0; ///< typical wandering of single partials
    std::array<double, HeterodyneBank::kMostPartials>
        trust{}; ///< per track, 1 typical, under 0.2 left out
    std::array<MeanPartial, HeterodyneBank::kMostPartials> partials{}; ///< per track
};

/// Joint fit of pitch, stiffness and glide to the phases of all partials.
///
/// The phase of partial n is that of a stiff comb whose pitch follows the energy, plus what is its own: a
/// constant offset and a wandering frequency of unknown size (a string moves in two directions whose
/// frequencies differ by a cent or two, so each partial beats with itself). The wandering is an
/// Ornstein–Uhlenbeck process whose correlation time goes as one over the frequency; a Kalman filter
/// removes it, its size is a mixture over a grid, so that a disturbed partial counts less without
/// a threshold. The glide has a log-normal prior and is integrated out.
/// **Source** augmented Kalman filter [DeJong1991]; scale mixtures as robust regression [West1984];
/// tension modulation [Legge1984]; stiff comb [Fletcher1964].
[[nodiscard]] SustainFit fitSustain(std::span<const PhaseTrack> tracks,
                                    const EnergyModel& energy,
                                    std::span<const PartialDecay> decays,
                                    const StiffComb& base,
                                    const StringPriors& priors);

} // namespace quillbench
