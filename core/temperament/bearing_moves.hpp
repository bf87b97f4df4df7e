#pragma once

#include "core/temperament/bearing_chain.hpp"

#include <cstdint>
#include <vector>

namespace quillbench::detail {

/// A way to set one or more notes of the twelve from others.
struct Move {
    enum class Way { FromOne, BetweenTwo, FourAlike };
    Way way = Way::FromOne;
    std::uint32_t needs = 0;
    std::uint32_t gives = 0;
    int from = 0; ///< place in the chain; for FourAlike the lower end
    int to = 0;   ///< the note set; for FourAlike the lower end too
    int lift = 0; ///< octaves that the upper note of a third is taken above its place
    double price = 0;
};

/// The moves that set all twelve notes from the one at `start` at the least cost [Dijkstra1959], each as soon as its notes
/// are set: the cheap ones first, then what goes on from the note set last. **Thread** any; allocates.
[[nodiscard]] std::vector<Move> cheapestMoves(const BearingChain& chain, int start);

} // namespace quillbench::detail
