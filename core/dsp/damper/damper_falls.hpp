#pragma once

#include <cmath>
#include <vector>

namespace quillbench::detail {

inline constexpr double kReleaseHop = 0.002; ///< s from frame to frame
inline constexpr double kFallBefore =
    0.06; ///< s before the release at which the grid of a fall starts

[[nodiscard]] inline double toDb(double power) {
    return 10.0 * std::log10(power + 1e-20);
}

[[nodiscard]] inline double fromDb(double db) {
    return std::pow(10.0, db / 10.0);
}

/// A fall after the release: decibels against just before it, on a grid of kReleaseHop starting kFallBefore earlier.
struct Fall {
    double damper60 = 0.2; ///< s, of the damped string
    double share = 0.0;    ///< power that does not follow the damper at once
    double room60 = 0.5;   ///< s, of that share
    std::vector<double> db;
};

/// Every fall that is tried, as frames of this length see it. **Range** slowest60: s, no damper slower.
[[nodiscard]] std::vector<Fall> allFalls(double frameSeconds, double slowest60);

/// Time until the string has fallen by `db`: damper, room and what it would have lost by itself, `ownDb` a second.
[[nodiscard]] double timeToFall(const Fall& fall, double ownDb, double db);

/// 60 dB by the slope from −5 to −25 dB of the backward integral.
[[nodiscard]] double integratedDecay(const Fall& fall, double ownDb);

} // namespace quillbench::detail
