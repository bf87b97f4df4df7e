#pragma once

#include "core/dsp/stagger/pluck_hypothesis.hpp"

#include <span>

namespace quillbench {

/// Lists what may have happened, by least squares alone: every choice of choirs, each at the places where
/// its solo fits best or at one of `places`, gains eliminated. The best of each choice are kept, so that
/// a dearer judgement can follow. **Range** 1 to kMostChoirsOfKey solos; from < to samples inside `whitened`.
/// **Source** matching of known waveforms in noise, all at once rather than one after another.
[[nodiscard]] std::vector<PluckHypothesis> enumeratePlucks(std::span<const double> whitened,
                                                           std::span<const SoloTemplate> solos,
                                                           std::size_t from,
                                                           std::size_t to,
                                                           std::span<const std::size_t> places,
                                                           std::size_t keptOfEach);

} // namespace quillbench
