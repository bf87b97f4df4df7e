#pragma once

#include "core/instrument/instrument.hpp"
#include "core/instrument/string.hpp"
#include "core/units/hertz.hpp"
#include "core/units/mechanics.hpp"

#include <vector>

namespace quillbench {

/// What the strings beside a place lead one to expect of a string there.
struct NeighbourScaling {
    Newton tension;
    double inharmonicity = 0.0; ///< B
    Millimetre length;
    bool known = false; ///< there are neighbours
};

/// A wire that could be fitted.
struct WireOption {
    StringMake make;
    StringState state;
    double tensionRatio = 1.0;   ///< to what the neighbours lead one to expect
    double stiffnessRatio = 1.0; ///< likewise, of B: partials lie further apart above 1
    /// How long it rings against the neighbours, as far as the bridge takes its energy: the rate of loss goes with
    /// T/L where the bridge is the same [Weinreich1977]. How far the same plectrum draws it goes the same way.
    double sustainRatio = 1.0;
    bool asBefore = false;     ///< the wire of the string list
    bool asNeighbours = false; ///< material of a string beside it
    double misfit = 0.0;       ///< 0: like its neighbours in every way
};

struct WireAdvice {
    StringMake old; ///< as the string list has it
    StringState oldState;
    NeighbourScaling neighbours;
    std::vector<WireOption>
        options; ///< best first, never empty, one or two gauges of each material
};

/// Diameters in millimetres that are looked at: the steps in which wire is usually sold, and those of the instrument's
/// own list. **Source** common practice, no source.
[[nodiscard]] std::vector<Millimetre> wireGauges(const Instrument& instrument);

/// Which wire to fit for a string of a given length: gauges whose tension is that of the neighbours (mean of the
/// logarithm of the four on either side, the nearer the more, the string itself left out), of materials that bear it. A wire whose strongest
/// kind would break there is not offered, unless nothing else is left; below a semitone of margin it counts as a misfit.
/// **Range** string of the instrument; length within kLengthLimits; pitch > 0.
/// **Source** law of the stretched string; what counts how much: common practice, no source.
[[nodiscard]] WireAdvice
whichWire(const Instrument& instrument, StringId string, Millimetre length, Hertz pitch);

} // namespace quillbench
