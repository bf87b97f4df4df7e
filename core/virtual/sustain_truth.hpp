#pragma once

#include "core/units/frames.hpp"
#include "core/virtual/vibrating_string.hpp"
#include "core/virtual/virtual_instrument.hpp"

#include <vector>

namespace quillbench {

/// Mean frequency of each partial of a string that is left alone: least-squares slope of the phase of its two
/// modes together, from `from` to `to` seconds after now or until it has fallen 40 dB (or to 50 dB below the
/// loudest). Up to 6 kHz; partials that are gone at once are left out. **Range** 0 ≤ from < to.
[[nodiscard]] std::vector<PluckTruth::Partial>
meanFrequencies(VibratingString string, SampleRate rate, Seconds from, Seconds to);

/// A stiff comb n·f0·√(1 + B·n²) [Fletcher1964].
struct StiffComb {
    Hertz f0;
    double inharmonicity = 0.0;
};

/// Fits a comb to the partials, each weighted by its certainty: its uncertainty and 0.05 Hz and 0.05 cent for the scatter of real partials; partials beyond four
/// times the spread count less [Tukey's biweight]. **Range** at least one partial; guess.f0 > 0.
[[nodiscard]] StiffComb fitStiffComb(const std::vector<PluckTruth::Partial>& partials,
                                     const StiffComb& guess);

} // namespace quillbench
