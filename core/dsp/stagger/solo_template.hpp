#pragma once

#include "core/dsp/stagger/pluck_hypothesis.hpp"

#include <span>
#include <vector>

namespace quillbench {

/// A sound after the same filters as all others that are compared with it.
struct FilteredSound {
    std::vector<double> whole;              ///< whitened
    std::vector<std::vector<double>> bands; ///< the same, split
};

/// Cuts one choir's pluck out of its solo, from 2 ms before it to 150 ms after; where noise is as loud as the
/// pluck the template fades out. **Range** rate in hertz, the upper
/// edge of each band; `pluck` inside the solo.
[[nodiscard]] SoloTemplate cutTemplate(const FilteredSound& solo,
                                       std::span<const double> edgesHz,
                                       double rateHz,
                                       std::size_t pluck);

/// Length of a template after its pluck.
inline constexpr double kTemplateSeconds = 0.15;

} // namespace quillbench
