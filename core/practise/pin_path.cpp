#include "core/practise/pin_path.hpp"

#include <algorithm>

namespace quillbench {

namespace {

constexpr Cents kMoves{0.2};   // less is no move
constexpr Cents kInPlace{0.3}; // nearer is the place itself: no crossing
constexpr Cents kHolds{0.5};   // a string that jumps by more on letting go was not settled

/// The side of the place on which a string stands.
int sideOf(Cents deviation) {
    return deviation > kInPlace ? 1 : deviation < -kInPlace ? -1 : 0;
}

} // namespace

PinPath gradePath(const std::vector<PinStand>& stands) {
    PinPath path;
    int side = 0;
    for (std::size_t i = 0; i < stands.size(); ++i) {
        const PinStand& stand = stands[i];
        path.highest = std::max(path.highest, stand.deviation);
        const int now = sideOf(stand.deviation);
        if (side != 0 && now == -side) {
            ++path.crossings;
        }
        side = now != 0 ? now : side;
        if (i == 0) {
            continue;
        }
        const Cents move = stand.deviation - stands[i - 1].deviation;
        if (stand.handOff) {
            path.jumped = move;
        } else if (abs(move) > kMoves) {
            path.fromAbove = move < Cents(0.0);
        }
    }
    path.settled = !stands.empty() && stands.back().handOff && abs(path.jumped) <= kHolds;
    // What was above when the exercise began is not the player's doing.
    const bool beganAbove = !stands.empty() && stands.front().deviation > Cents(0.0);
    path.tooHigh =
        path.highest > kNeverAbove && !(beganAbove && path.highest <= stands.front().deviation);
    return path;
}

} // namespace quillbench
