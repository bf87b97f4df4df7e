#include "core/virtual/scripted_ear.hpp"

#include "core/support/contract.hpp"

#include <algorithm>
#include <cmath>

namespace quillbench {

namespace {

constexpr double kRateSpread = 0.05;    ///< of a rate
constexpr double kSlowSpread = 0.02;    ///< per second: of a rate that hardly turns once in a note
constexpr double kTwoNotesCents = 12.0; ///< further apart than this the higher one is heard as such
constexpr double kTwoNotesSpread = 3.0; ///< cents: of such a distance
constexpr double kContentPerSecond =
    0.06; ///< nearer than this nobody hears a difference in one note
constexpr double kContentCents = 0.15;
constexpr double kTellsSides = 0.1;  ///< per second: moves of less say nothing about the side
constexpr double kNearlyThere = 1.0; ///< cents: nearer than this it is heard twice
constexpr std::size_t kHeardTwice = 2;

} // namespace

ScriptedEar::ScriptedEar(std::uint64_t seed) : random_(seed) {
}

void ScriptedEar::begin() {
    last_.reset();
    movedCents_ = 0.0;
    heardStill_ = 0;
}

/// The beat that is heard, on the side that it is taken to lie on.
double ScriptedEar::taken(const HeardByEar& heard) {
    const double up = heard.tunedIsUpper ? 1.0 : -1.0;
    const double perCent = up * heard.beatsPerCent;
    const double sounded = heard.beat.perSecond();
    double beat = 0.0;
    if (std::abs(sounded) > kTwoNotesCents * heard.beatsPerCent) {
        beat = sounded + kTwoNotesSpread * heard.beatsPerCent * random_.normal();
    } else {
        const double rate =
            std::abs(sounded + std::hypot(kRateSpread * sounded, kSlowSpread) * random_.normal());
        // Flat, until the beat says otherwise: slower or faster than it would have become on this side.
        double side = -up;
        const double turned = perCent * movedCents_;
        if (last_ && std::abs(turned) > kTellsSides) {
            const double here = *last_ + turned;
            const double there = -*last_ + turned;
            const bool other = std::abs(std::abs(there) - rate) < std::abs(std::abs(here) - rate);
            side = (other ? there : here) < 0.0 ? -1.0 : 1.0;
        } else if (last_) {
            side = *last_ < 0.0 ? -1.0 : 1.0;
        }
        beat = side * rate;
    }
    last_ = beat;
    movedCents_ = 0.0;
    return beat;
}

EarsWish ScriptedEar::judge(const HeardByEar& heard) {
    EXPECTS(heard.beatsPerCent > 0.0);
    const double off = taken(heard) - heard.wanted.perSecond();
    ++heardStill_;
    meanOff_ =
        heardStill_ == 1 ? off : meanOff_ + (off - meanOff_) / static_cast<double>(heardStill_);
    EarsWish wish;
    if (std::abs(meanOff_) < kNearlyThere * heard.beatsPerCent && heardStill_ < kHeardTwice) {
        return wish;
    }
    wish.content =
        std::abs(meanOff_) < std::max(kContentPerSecond, kContentCents * heard.beatsPerCent);
    if (!wish.content) {
        const double up = heard.tunedIsUpper ? 1.0 : -1.0;
        wish.move = Cents(-meanOff_ / (up * heard.beatsPerCent));
    }
    return wish;
}

void ScriptedEar::moved(Cents by) {
    movedCents_ += by.value();
    heardStill_ = 0;
}

} // namespace quillbench
