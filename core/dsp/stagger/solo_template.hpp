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
/// pluck the template fades out. **Range** rate in hertz; period of the string in seconds.
[[nodiscard]] SoloTemplate
cutTemplate(const FilteredSound& solo, double rateHz, double periodSeconds);

/// Length of a template after its pluck.
inline constexpr double kTemplateSeconds = 0.15;

} // namespace quillbench
