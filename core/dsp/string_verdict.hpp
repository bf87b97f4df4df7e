#pragma once

#include "core/analysis/snapshot.hpp"
#include "core/dsp/energy_model.hpp"
#include "core/dsp/phase_track.hpp"
#include "core/dsp/string_priors.hpp"
#include "core/dsp/sustain_fit.hpp"

#include <span>

namespace quillbench {

/// Decay and level of every track; what one string's partials share is learned from them together.
/// **Range** at least as many decays as tracks, each track of two points or more.
void decaysOf(std::span<const PhaseTrack> tracks,
              const StringPriors& priors,
              std::span<PartialDecay> decays);

/// A partial as it is told. `mean` and `trust` as in SustainFit.
[[nodiscard]] PartialReading partialOf(const PhaseTrack& track,
                                       const PartialDecay& decay,
                                       const MeanPartial& mean,
                                       double trust);

/// Whether the lower partials are those of one string: most lie on the comb, and not just every second or
/// third, which another note of the harmony would share. **Range** each track of two points or more.
[[nodiscard]] bool
isOneString(std::span<const PhaseTrack> tracks, const SustainFit& fit, int skipMultiples);

} // namespace quillbench
