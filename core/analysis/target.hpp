#pragma once

#include "core/instrument/instrument.hpp"
#include "core/units/cents.hpp"
#include "core/units/hertz.hpp"

#include <map>
#include <optional>
#include <vector>

namespace quillbench {

/// A string that may sound with the registers that are on, and where its partial 1 should lie.
struct ExpectedString {
    StringId id;
    Hertz target; ///< of partial 1; > 0
    double inharmonicity =
        0; ///< B from its make; 0 where unknown (a prior by register of pitch is used)
};

/// What the analysis listens for. A value; replaced as a whole when registers, step or pitch change.
struct AnalysisTarget {
    std::vector<ExpectedString> strings; ///< all strings whose registers are on
    std::optional<StringId> asked;       ///< the string that is being tuned, if one is
    std::optional<StringId> with; ///< the string that it is to be heard together with, if it is
    bool withAlone =
        false; ///< `with` is to be heard by itself first: both are believed only where that is clear
    Cents range{60.0}; ///< how far from its target a string is looked for
    /// Partials of which it matters exactly where they lie: at the end of a long pluck their two polarisations are heard
    /// out. Each costs some 30 ms. **Range** 1 to 40.
    std::map<StringId, std::vector<int>> closely;
    bool pairs = false;         ///< two strings that sound together are listened to as a pair
    bool askedMayBeFar = false; ///< a string a semitone off is still taken as the one asked for
    std::optional<Cents>
        askedLast; ///< where it was last heard, from its target: what lies much nearer to another string's is not it
};

} // namespace quillbench
