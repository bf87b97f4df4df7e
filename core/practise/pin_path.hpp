#pragma once

#include "core/units/cents.hpp"

#include <cstddef>
#include <vector>

namespace quillbench {

/// Where the string stood against what was wanted while its pin was turned.
struct PinStand {
    Cents deviation;
    bool handOff = false; ///< the hammer was let go
};

/// How a string was brought to its place. Common practice, no source: from a little above, settling down into it, with
/// the last pluck after the hand left the hammer.
struct PinPath {
    bool fromAbove = false;    ///< the last move that counts went down into the place
    bool settled = false;      ///< it was let go at the end, and hardly moved then
    Cents highest;             ///< the most it stood above what was wanted; 0 where it never did
    Cents jumped;              ///< how far it moved when it was let go last
    std::size_t crossings = 0; ///< times it went past the place
    bool tooHigh = false;      ///< above it by more than is safe for an old string
};

/// Above the place by more than this a string is in danger (as the guard in a session).
inline constexpr Cents kNeverAbove{10.0};

/// **Range** stands in order, the first before any move.
[[nodiscard]] PinPath gradePath(const std::vector<PinStand>& stands);

} // namespace quillbench
