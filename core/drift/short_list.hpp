#pragma once

#include "core/instrument/instrument.hpp"
#include "core/units/cents.hpp"

#include <map>
#include <span>
#include <vector>

namespace quillbench {

/// Two strings that are heard against one another.
struct HeardInterval {
    StringId lower;
    StringId upper;
    Cents tolerance; ///< how much wider or narrower than the temperament wants it may be; > 0
    double weight = 1.0;
};

/// One string to tune, to the pitch that the list keeps.
struct ShortListed {
    StringId string;
    Cents move;
    double gain = 0; ///< weight of the intervals that come right by it, in this order
};

/// Which strings to tune, and which to leave.
struct ShortList {
    Cents shift; ///< of the whole from its standard: 0, or where it is re-anchored
    std::vector<ShortListed> strings;
    std::size_t wrongBefore = 0; ///< intervals outside tolerance now
    bool fewest =
        true; ///< proven; false where the knot was too large and a good list stands for the best
};

/// The fewest strings that, brought to their targets moved by `shift`, leave every interval inside its tolerance; in
/// the order of what they gain. Empty: leave it. Strings that are not in `deviations` count as in tune and can be
/// tuned too. **Accuracy** compared with trying every set (short_list_test).
[[nodiscard]] ShortList shortList(const std::map<StringId, Cents>& deviations,
                                  std::span<const HeardInterval> intervals,
                                  Cents shift = Cents(0.0));

/// The best list over all shifts within ±most of the standard; the smallest shift among equals.
[[nodiscard]] ShortList reanchored(const std::map<StringId, Cents>& deviations,
                                   std::span<const HeardInterval> intervals,
                                   Cents most = Cents(10.0));

} // namespace quillbench
