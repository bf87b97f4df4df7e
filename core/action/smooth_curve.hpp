#pragma once

#include <cstddef>
#include <span>
#include <vector>

namespace quillbench {

/// What a quantity does over the compass, single keys left aside.
struct SmoothCurve {
    std::vector<double> fitted; ///< at every x
    /// How far ordinary keys scatter about it: 1.4826 × the median distance, one standard deviation where
    /// they are normal.
    double scale = 0.0;
    double degreesOfFreedom = 1.0; ///< how many keys a point of the curve rests on, about
};

/// Local straight lines with tricube weights, then three rounds in which what lies far off counts less (Tukey's
/// bisquare), so that a bad key does not pull the curve to itself.
/// **Range** x ascending, as many y; at least 1. `span`: of all points, the part each line sees; never less than
/// 9 points (fewer only where there are fewer).
/// **Source** [Cleveland1979].
[[nodiscard]] SmoothCurve
smoothCurve(std::span<const double> x, std::span<const double> y, double span = 0.4);

/// The chance that a normal variable lies below `z` standard deviations.
[[nodiscard]] double normalBelow(double z);

} // namespace quillbench
