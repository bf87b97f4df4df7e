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
constexpr double kTellsSides = 0.1; ///< per second: moves of less say nothing about the side

} // namespace

ScriptedEar::ScriptedEar(std::uint64_t seed) : random_(seed) {
}

void ScriptedEar::begin() {
    last_.reset();
    movedCents_ = 0.0;
}

std::optional<Cents> ScriptedEar::judge(const HeardByEar& heard) {
    EXPECTS(heard.beatsPerCent > 0.0);
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
    const double off = beat - heard.wanted.perSecond();
    if (std::abs(off) < std::max(kContentPerSecond, kContentCents * heard.beatsPerCent)) {
        return std::nullopt;
    }
    return Cents(-off / perCent);
}

void ScriptedEar::moved(Cents by) {
    movedCents_ += by.value();
}

} // namespace quillbench
