#include "app/places/temperament/change_over_offer.hpp"

#include "app/models/choices.hpp"
#include "app/text/format.hpp"
#include "core/support/contract.hpp"
#include "core/workflow/player_speed.hpp"
#include "core/workflow/step.hpp"

#include <algorithm>
#include <map>
#include <utility>
#include <vector>

namespace quillbench {

namespace {

constexpr Cents kSameTarget(0.05);
/// A string further off was left at another pitch, or the virtual strings were strung anew: it counts as in tune.
constexpr Cents kOfOtherPitch(50.0);
/// What rounding to a hundredth of a hertz can move: half of it at 370 Hz is 0.024 cents.
constexpr Cents kForRounding(0.03);
constexpr std::size_t kWorthAShift = 3; // strings; our choice

/// The instrument without the choirs that are left alone: they cost nothing.
Instrument tunedChoirs(const TuningModel& tuning) {
    Instrument part = tuning.instrument();
    for (std::size_t choir = 0; choir < part.choirs.size(); ++choir) {
        if (choir != tuning.choir() &&
            tuning.optionsOfNext().leftAlone.contains(toQString(part.choirs[choir].id))) {
            part.choirs[choir].strings.clear();
        }
    }
    return part;
}

/// What was heard in this session counts more than what the logbook has.
std::map<StringId, Hertz> presentPitches(const TuningModel& tuning, const StringHistory& left) {
    std::map<StringId, Hertz> pitches = lastPitches(left);
    for (const auto& [string, mark] : tuning.session().known) {
        if (mark.good && mark.signKnown) {
            pitches[string] = transpose(tuning.targetOf(string), mark.deviation);
        }
    }
    return pitches;
}

struct Passage {
    Instrument instrument; ///< what of it is tuned
    TunedScale now;
    std::map<StringId, Cents> deviations;
    TunedScale wanted;
    Cents tolerance;
    PlayerSpeed speed;
    int position = 0;

    [[nodiscard]] Hertz target(const TunedScale& scale, StringId string) const {
        return targetPitch(
            instrument,
            string,
            [&scale](const Note& note) { return scale.pitchOf(note); },
            position);
    }

    [[nodiscard]] ThereAndBack cost(Cents shift) const {
        return changeOver(instrument, now, deviations, wanted, shift, tolerance, speed, position);
    }

    [[nodiscard]] std::vector<StringId> strings() const {
        std::vector<StringId> all;
        std::size_t count = 0;
        for (const Choir& choir : instrument.choirs) {
            count += choir.strings.size();
        }
        all.reserve(count);
        for (std::size_t choir = 0; choir < instrument.choirs.size(); ++choir) {
            for (std::size_t i = 0; i < instrument.choirs[choir].strings.size(); ++i) {
                all.push_back({choir, i});
            }
        }
        return all;
    }
};

Passage wayFrom(const TuningModel& tuning, const TemperamentModel& bench) {
    const TunedScale inForce{tuning.temperament(),
                             ReferencePitch{Hertz(tuning.choice().a4Hz), {{Letter::A, 0}, 4}}};
    Passage way{tunedChoirs(tuning),
                bench.leftIn(tuning.position()).value_or(inForce),
                {},
                bench.scale(),
                tuning.optionsOfNext().tolerances.bearings,
                speedFrom(timesPerString(bench.left().settled)),
                tuning.position()};
    for (const auto& [string, pitch] : presentPitches(tuning, bench.left())) {
        if (string.course >= way.instrument.choirs[string.choir].strings.size()) {
            continue;
        }
        const Cents off = interval(way.target(way.now, string), pitch);
        if (abs(off) < kOfOtherPitch) {
            way.deviations[string] = off;
        }
    }
    return way;
}

std::optional<ShiftOffer> shiftOf(const Passage& way, const ChangeOver& held) {
    const double standard = way.wanted.reference.hz.value();
    const Cents best = shiftThatMovesFewest(way.instrument,
                                            way.now,
                                            way.deviations,
                                            way.wanted,
                                            way.tolerance - kForRounding,
                                            Cents(5.0),
                                            way.position);
    ShiftOffer offer;
    offer.a4Hz = standardShifted(standard, best);
    offer.there = way.cost(interval(Hertz(standard), Hertz(offer.a4Hz))).there;
    const bool inRange = offer.a4Hz >= kLowestStandardHz && offer.a4Hz <= kHighestStandardHz;
    return inRange && offer.there.strings.size() + kWorthAShift <= held.strings.size()
               ? std::optional<ShiftOffer>(std::move(offer))
               : std::nullopt;
}

bool risesFar(const TuningModel& tuning, const Passage& way, const ChangeOver& there) {
    return std::any_of(there.strings.begin(), there.strings.end(), [&](const StringMove& one) {
        const StringMake& make =
            tuning.instrument().choirs[one.string.choir].strings[one.string.course];
        // The margin is reckoned where the string goes to: what is left of it, and the rise, are what there was.
        const Cents margin = factsAt(make, way.target(way.wanted, one.string)).marginLow + one.move;
        return one.move > ceilingAboveTarget(margin);
    });
}

} // namespace

std::optional<ChangeOverOffer> changeOverOffer(const TuningModel& tuning,
                                               const TemperamentModel& bench) {
    EXPECTS(tuning.ready());
    const Passage way = wayFrom(tuning, bench);
    const std::vector<StringId> strings = way.strings();
    if (std::none_of(strings.begin(), strings.end(), [&way](StringId string) {
            return abs(interval(way.target(way.now, string), way.target(way.wanted, string))) >
                   kSameTarget;
        })) {
        return std::nullopt;
    }
    ChangeOverOffer offer{way.now, way.deviations.size(), strings.size(), way.cost(Cents(0.0)), {}};
    offer.shifted = shiftOf(way, offer.held.there);
    offer.farUp = risesFar(tuning, way, offer.held.there);
    return offer;
}

} // namespace quillbench
