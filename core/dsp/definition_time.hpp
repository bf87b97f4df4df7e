#pragma once

#include "core/dsp/energy_model.hpp"

#include <span>

namespace quillbench {

/// When each partial's mean frequency ends by the definition of the sustain pitch, in seconds after the pluck: its
/// power, smoothed over 0.1 s so that a passing null of two polarisations does not end it, has fallen 40 dB, or lies
/// 50 dB under the loudest partial's. What was not heard is foretold by the decay.
/// **Range** as many decays and ends as tracks; tracks of one point or more. Ends lie between 0.22 and 2.5 s.
void definitionEnds(std::span<const PhaseTrack> tracks,
                    std::span<const PartialDecay> decays,
                    std::span<double> ends);

} // namespace quillbench
