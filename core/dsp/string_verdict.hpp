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

/// Mean frequency of a partial over what was heard of it: least-squares slope of its phase. `trust` as in
/// SustainFit.
[[nodiscard]] PartialReading
partialOf(const PhaseTrack& track, const PartialDecay& decay, double trust);

/// Whether the lower partials are those of one string: most lie on the comb, and not just every second or
/// third, which another note of the harmony would share.
[[nodiscard]] bool
isOneString(const StringReading& reading, const SustainFit& fit, int skipMultiples);

} // namespace quillbench
