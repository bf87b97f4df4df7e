#include "core/workflow/first_look.hpp"

#include "core/support/contract.hpp"

#include <algorithm>
#include <cmath>

namespace quillbench {

namespace {

struct Share {
    double strings = 0; ///< heard
    double moved = 0;   ///< of them outside the tolerance
    Cents sum;          ///< of moves, without sign
};

std::vector<Share> sharesAt(const Instrument& instrument,
                            std::span<const FoundString> found,
                            Cents shift,
                            Cents tolerance) {
    std::vector<Share> shares(instrument.choirs.size());
    for (const FoundString& one : found) {
        Share& share = shares[one.string.choir];
        const Cents move = abs(one.deviation - shift);
        share.strings += 1.0;
        share.moved += move > tolerance ? 1.0 : 0.0;
        share.sum += move;
    }
    return shares;
}

PitchOffer offerAt(const Instrument& instrument,
                   std::span<const FoundString> found,
                   PitchOffer::Kind kind,
                   Cents shift,
                   Cents tolerance,
                   const PlayerSpeed& speed) {
    PitchOffer offer;
    offer.kind = kind;
    offer.shift = shift;
    const std::vector<Share> shares = sharesAt(instrument, found, shift, tolerance);
    Share all;
    for (const Share& share : shares) {
        all.strings += share.strings;
        all.moved += share.moved;
        all.sum += share.sum;
    }
    double total = 0.0;
    Cents moves;
    for (std::size_t choir = 0; choir < shares.size(); ++choir) {
        const Share& share = shares[choir].strings > 0.0 ? shares[choir] : all;
        const double count = static_cast<double>(instrument.choirs[choir].strings.size());
        total += count;
        offer.strings += count * share.moved / share.strings;
        moves += count * (share.sum / share.strings);
    }
    offer.averageMove = moves / total;
    for (const FoundString& one : found) {
        offer.furthestUp = std::max(offer.furthestUp, shift - one.deviation);
    }
    offer.time = Seconds(offer.strings * speed.toTune.count() +
                         (total - offer.strings) * speed.toHear.count());
    return offer;
}

/// The shift under which fewest strings have to move; among equals the one with the least moves.
Cents mostAlone(const Instrument& instrument, std::span<const FoundString> found, Cents tolerance) {
    std::vector<Cents> candidates;
    for (const FoundString& a : found) {
        candidates.push_back(a.deviation + 0.999 * tolerance);
        candidates.push_back(a.deviation);
        candidates.push_back(a.deviation - 0.999 * tolerance);
        for (const FoundString& b : found) {
            candidates.push_back((a.deviation + b.deviation) / 2.0);
        }
    }
    const PlayerSpeed any;
    Cents best;
    double fewest = 0.0;
    Cents least;
    bool first = true;
    for (const Cents shift : candidates) {
        const PitchOffer offer =
            offerAt(instrument, found, PitchOffer::Kind::LeavesMostAlone, shift, tolerance, any);
        const bool better = offer.strings < fewest - 1e-9 ||
                            (offer.strings < fewest + 1e-9 && offer.averageMove < least);
        if (first || better) {
            best = shift;
            fewest = offer.strings;
            least = offer.averageMove;
            first = false;
        }
    }
    return best;
}

} // namespace

std::vector<PitchOffer> pitchOffers(const Instrument& instrument,
                                    std::span<const FoundString> found,
                                    Cents tolerance,
                                    const PlayerSpeed& speed,
                                    std::optional<FoundString> heard) {
    EXPECTS(!found.empty() && tolerance > Cents(0.0));
    std::vector<PitchOffer> offers{
        offerAt(instrument, found, PitchOffer::Kind::Standard, Cents(0.0), tolerance, speed),
        offerAt(instrument,
                found,
                PitchOffer::Kind::LeavesMostAlone,
                mostAlone(instrument, found, tolerance),
                tolerance,
                speed)};
    if (heard) {
        offers.push_back(offerAt(
            instrument, found, PitchOffer::Kind::AsHeard, heard->deviation, tolerance, speed));
        offers.back().shiftUncertainty = heard->uncertainty;
    }
    return offers;
}

std::vector<Cents>
expectedMoves(const Instrument& instrument, std::span<const FoundString> found, Cents shift) {
    const std::vector<Share> shares = sharesAt(instrument, found, shift, Cents(0.0));
    std::vector<Cents> moves;
    moves.reserve(shares.size());
    for (const Share& share : shares) {
        moves.push_back(share.strings > 0.0 ? share.sum / share.strings : Cents(0.0));
    }
    return moves;
}

} // namespace quillbench
