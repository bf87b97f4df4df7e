#include "core/temperament/bearing_moves.hpp"

#include "core/support/contract.hpp"
#include "core/temperament/bearing_steps.hpp"
#include "core/temperament/beat_table.hpp"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <functional>
#include <queue>
#include <utility>

namespace quillbench::detail {

namespace {

constexpr double kAlike = 0.02;            // cents between two temperings that feel the same
constexpr double kFastestTunedThird = 7.5; // beats a second, counted without a metronome: 6 to 7
constexpr double kAlmostPure = 0.15;       // beats a second; a beat outlasts the note

/// What a step costs a tuner, in the price of a beatless fifth. Common practice, no source.
namespace cost {
constexpr double kPureFifth = 1.0;
constexpr double kPureFourth = 1.05;
constexpr double kPureThird = 1.1;
constexpr double kPureMinorThird = 1.3;
constexpr double kAlmostPure = 1.6;
constexpr double kCounted = 3.0;
constexpr double kPerBeatOfThird = 0.25;
constexpr double kPerFastBeat = 0.1; // over three a second
constexpr double kOctave = 0.4;
constexpr double kShare = 2.0;
constexpr double kShareOfFour = 5.5;
constexpr double kWolf = 100.0;             // only where nothing else leads to a note
constexpr double kPerFifthFromStart = 0.02; // keeps both ends of the chain equally long
} // namespace cost

bool countable(const BearingStep& share) {
    return abs(share.beat) <= kFastestCountable &&
           (!share.alike || abs(share.alike->beat) <= kFastestCountable);
}

/// Every way to set notes of the chain from others, with its price.
class MoveList {
public:
    explicit MoveList(const BearingChain& chain) : chain_(chain) {}

    std::vector<Move> list(int start) {
        for (int place = 0; place < kFifthsAround; ++place) {
            if (chain_.reaches(place, 1)) {
                addFifth(place, start);
            }
            if (chain_.reaches(place, 4)) {
                addMajorThird(place, start);
                addFourAlike(place);
            }
            if (chain_.reaches(place, 3)) {
                addMinorThird(place, start);
            }
            if (chain_.reaches(place, 2)) {
                addShare(place);
            }
        }
        return std::move(moves_);
    }

private:
    [[nodiscard]] BeatRate beatOf(const Note& one, const Note& other) const {
        return stepOf(chain_.scale(), StepKind::Check, one, other).beat;
    }

    void addMove(Move move, int start) {
        // Down the chain from the start, or up it: whichever way this move grows it.
        const int distance = move.to > move.from ? BearingChain::wrapped(move.to - start)
                                                 : BearingChain::wrapped(start - move.to);
        move.price += cost::kPerFifthFromStart * distance;
        moves_.push_back(move);
    }

    void addBothWays(int lower, int upper, int lift, double price, int start) {
        for (const auto& [from, to] : {std::pair(lower, upper), std::pair(upper, lower)}) {
            addMove({Move::Way::FromOne,
                     BearingChain::bit(from),
                     BearingChain::bit(to),
                     from,
                     to,
                     lift,
                     price},
                    start);
        }
    }

    void addFifth(int place, int start) {
        const double cents = std::abs(chain_.tempering(place).value());
        const bool fourth = chain_.key(place + 1).midiNumber() < chain_.key(place).midiNumber();
        const double beats = abs(beatOf(chain_.key(place), chain_.key(place + 1))).perSecond();
        double price = cost::kCounted + cost::kPerFastBeat * std::max(0.0, beats - 3.0);
        if (cents > kWidestTunedFifth || beats > kFastestCountable.perSecond()) {
            price = cost::kWolf;
        } else if (cents < kPure) {
            price = fourth ? cost::kPureFourth : cost::kPureFifth;
        } else if (beats < kAlmostPure) {
            price = cost::kAlmostPure;
        }
        addBothWays(place, place + 1, 0, price, start);
    }

    void addMajorThird(int place, int start) {
        const Note lower = chain_.key(place);
        const int lift = chain_.key(place + 4).midiNumber() < lower.midiNumber() ? 1 : 0;
        const Note upper = BearingChain::up(chain_.key(place + 4), lift);
        if (!chain_.inRange(upper)) {
            return;
        }
        const BearingStep third = stepOf(chain_.scale(), StepKind::Check, lower, upper);
        const double beats = abs(third.beat).perSecond();
        if (beats > kFastestTunedThird) {
            return;
        }
        const Cents width = widthFromPure(
            third.interval, chain_.scale().pitchOf(lower), chain_.scale().pitchOf(upper));
        const bool pure = std::abs(width.value()) < kPure;
        const double price =
            (pure ? cost::kPureThird : cost::kCounted + cost::kPerBeatOfThird * beats) +
            cost::kOctave * lift;
        addBothWays(place, place + 4, lift, price, start);
    }

    /// Three fifths up make a major sixth, or downwards a minor third; used where it is pure.
    void addMinorThird(int place, int start) {
        const Note one = chain_.key(place);
        const Note other = chain_.key(place + 3);
        const BearingStep third = stepOf(chain_.scale(), StepKind::Check, one, other);
        const Hertz a = chain_.scale().pitchOf(one);
        const Hertz b = chain_.scale().pitchOf(other);
        const Cents width = widthFromPure(third.interval, std::min(a, b), std::max(a, b));
        if (std::abs(width.value()) < kPure) {
            addBothWays(place, place + 3, 0, cost::kPureMinorThird, start);
        }
    }

    [[nodiscard]] bool alike(int place, int fifths) const {
        const double first = chain_.tempering(place).value();
        if (std::abs(first) < kPure) {
            return false;
        }
        for (int i = 1; i < fifths; ++i) {
            if (std::abs(chain_.tempering(place + i).value() - first) > kAlike) {
                return false;
            }
        }
        return true;
    }

    void addShare(int place) {
        if (alike(place, 2) &&
            countable(shareOf(
                chain_.scale(), chain_.key(place + 1), chain_.key(place), chain_.key(place + 2)))) {
            moves_.push_back({Move::Way::BetweenTwo,
                              BearingChain::bit(place) | BearingChain::bit(place + 2),
                              BearingChain::bit(place + 1),
                              place,
                              place + 1,
                              0,
                              cost::kShare});
        }
    }

    void addFourAlike(int place) {
        if (!alike(place, 4)) {
            return;
        }
        const BearingStep above =
            temporaryOf(chain_.scale(), chain_.key(place + 1), chain_.key(place));
        const BearingStep below =
            temporaryOf(chain_.scale(), chain_.key(place + 3), chain_.key(place + 4));
        if (countable(shareBetween(chain_.scale(), chain_.key(place + 2), above, below))) {
            moves_.push_back({Move::Way::FourAlike,
                              BearingChain::bit(place) | BearingChain::bit(place + 4),
                              BearingChain::bit(place + 1) | BearingChain::bit(place + 2) |
                                  BearingChain::bit(place + 3),
                              place,
                              place,
                              0,
                              cost::kShareOfFour});
        }
    }

    const BearingChain& chain_;
    std::vector<Move> moves_;
};

/// The cheapest sequence of moves from the start to all twelve notes.
std::vector<Move> cheapestPath(const std::vector<Move>& moves, int start) {
    constexpr std::uint32_t kAll = (std::uint32_t{1} << kFifthsAround) - 1;
    constexpr double kFar = 1e9;
    std::vector<double> price(kAll + 1, kFar);
    std::vector<std::size_t> via(kAll + 1, 0);
    std::vector<std::uint32_t> before(kAll + 1, 0);
    using Entry = std::pair<double, std::uint32_t>;
    std::priority_queue<Entry, std::vector<Entry>, std::greater<>> open;
    price[BearingChain::bit(start)] = 0.0;
    open.emplace(0.0, BearingChain::bit(start));
    while (!open.empty()) {
        const auto [here, notes] = open.top();
        open.pop();
        if (notes == kAll) {
            break;
        }
        if (here > price[notes]) {
            continue;
        }
        for (std::size_t i = 0; i < moves.size(); ++i) {
            const Move& move = moves[i];
            if ((notes & move.needs) != move.needs || (notes & move.gives) != 0) {
                continue;
            }
            const std::uint32_t then = notes | move.gives;
            if (here + move.price < price[then] - 1e-12) {
                price[then] = here + move.price;
                via[then] = i;
                before[then] = notes;
                open.emplace(price[then], then);
            }
        }
    }
    std::vector<Move> path;
    ENSURES(price[kAll] < kFar);
    for (std::uint32_t notes = kAll; notes != BearingChain::bit(start); notes = before[notes]) {
        path.push_back(moves[via[notes]]);
    }
    std::reverse(path.begin(), path.end());
    return path;
}

/// The same moves, each as soon as its notes are set: the cheap ones first, then what goes on from the note set
/// last.
std::vector<Move> inPlayableOrder(std::vector<Move> moves, int start) {
    std::vector<Move> ordered;
    std::uint32_t notes = BearingChain::bit(start);
    int last = start;
    while (!moves.empty()) {
        const auto better = [&](const Move& a, const Move& b) {
            const bool canA = (notes & a.needs) == a.needs;
            const bool canB = (notes & b.needs) == b.needs;
            if (canA != canB) {
                return canA;
            }
            const bool onA = BearingChain::wrapped(a.from) == BearingChain::wrapped(last);
            const bool onB = BearingChain::wrapped(b.from) == BearingChain::wrapped(last);
            const double costA = std::floor(a.price) - (onA ? 0.5 : 0.0);
            const double costB = std::floor(b.price) - (onB ? 0.5 : 0.0);
            return costA < costB;
        };
        const auto next = std::min_element(moves.begin(), moves.end(), better);
        ENSURES((notes & next->needs) == next->needs);
        notes |= next->gives;
        last = next->to;
        ordered.push_back(*next);
        moves.erase(next);
    }
    return ordered;
}

} // namespace

std::vector<Move> cheapestMoves(const BearingChain& chain, int start) {
    return inPlayableOrder(cheapestPath(MoveList(chain).list(start), start), start);
}

} // namespace quillbench::detail
