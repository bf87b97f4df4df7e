#include "core/workflow/change_over.hpp"

#include <algorithm>
#include <cmath>

namespace quillbench {

namespace {

using Deviations = std::map<StringId, Cents>;

Hertz targetIn(const Instrument& instrument,
               const TunedScale& scale,
               StringId string,
               int position) {
    return targetPitch(
        instrument, string, [&](const Note& note) { return scale.pitchOf(note); }, position);
}

/// How far every string is from its place in the wanted temperament, at its own standard.
std::vector<StringMove> movesTo(const Instrument& instrument,
                                const TunedScale& now,
                                const Deviations& deviations,
                                const TunedScale& wanted,
                                int position) {
    std::vector<StringMove> moves;
    for (std::size_t choir = 0; choir < instrument.choirs.size(); ++choir) {
        for (std::size_t course = 0; course < instrument.choirs[choir].strings.size(); ++course) {
            const StringId string{choir, course};
            const auto found = deviations.find(string);
            const Cents off = found == deviations.end() ? Cents(0.0) : found->second;
            moves.push_back({string,
                             interval(targetIn(instrument, now, string, position),
                                      targetIn(instrument, wanted, string, position)) -
                                 off});
        }
    }
    return moves;
}

ChangeOver costOf(const std::vector<StringMove>& moves,
                  Cents shift,
                  Cents tolerance,
                  const PlayerSpeed& speed) {
    ChangeOver cost;
    cost.shift = shift;
    Cents sum;
    for (const StringMove& one : moves) {
        const Cents move = one.move + shift;
        if (abs(move) > tolerance) {
            cost.strings.push_back({one.string, move});
            cost.furthestUp = std::max(cost.furthestUp, move);
            sum += abs(move);
        }
    }
    if (!cost.strings.empty()) {
        cost.averageMove = sum / static_cast<double>(cost.strings.size());
    }
    std::stable_sort(cost.strings.begin(),
                     cost.strings.end(),
                     [](const StringMove& a, const StringMove& b) { return a.move < b.move; });
    cost.time = speed.toTune * static_cast<double>(cost.strings.size());
    return cost;
}

} // namespace

ThereAndBack changeOver(const Instrument& instrument,
                        const TunedScale& now,
                        const Deviations& deviations,
                        const TunedScale& wanted,
                        Cents shift,
                        Cents tolerance,
                        const PlayerSpeed& speed,
                        int position) {
    const std::vector<StringMove> there = movesTo(instrument, now, deviations, wanted, position);
    // Only what is moved there stands in the new place; the rest stays where it is.
    ThereAndBack both{costOf(there, shift, tolerance, speed), {}};
    Deviations after;
    for (const StringMove& one : there) {
        const bool moved = abs(one.move + shift) > tolerance;
        after[one.string] = moved ? shift : -one.move;
    }
    both.back =
        costOf(movesTo(instrument, wanted, after, now, position), Cents(0.0), tolerance, speed);
    return both;
}

Cents shiftThatMovesFewest(const Instrument& instrument,
                           const TunedScale& now,
                           const Deviations& deviations,
                           const TunedScale& wanted,
                           Cents tolerance,
                           Cents most,
                           int position) {
    const std::vector<StringMove> moves = movesTo(instrument, now, deviations, wanted, position);
    std::vector<Cents> candidates{Cents(0.0)};
    for (const StringMove& one : moves) {
        // Just inside the tolerance on either side, and in the middle.
        for (const double edge : {-0.999, 0.0, 0.999}) {
            const Cents shift = -one.move + edge * tolerance;
            if (abs(shift) <= most) {
                candidates.push_back(shift);
            }
        }
    }
    const PlayerSpeed any;
    Cents best;
    std::size_t fewest = moves.size() + 1;
    for (const Cents shift : candidates) {
        const std::size_t count = costOf(moves, shift, tolerance, any).strings.size();
        if (count < fewest || (count == fewest && abs(shift) < abs(best))) {
            best = shift;
            fewest = count;
        }
    }
    return best;
}

} // namespace quillbench
