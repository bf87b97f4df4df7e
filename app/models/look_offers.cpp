#include "app/models/look_offers.hpp"

#include <algorithm>
#include <map>
#include <vector>

namespace quillbench {

namespace {

/// What the first look heard; nothing while a step of it is open, or once a string was set.
std::vector<FoundString> foundIn(const Session& session) {
    std::map<StringId, Mark> heard;
    const auto& steps = session.plan->steps;
    for (std::size_t step = 0; step < steps.size(); ++step) {
        const bool look = steps[step].phase == Phase::FirstLook;
        if ((look && !session.done(step)) || (steps[step].setsString() && session.done(step))) {
            return {};
        }
        if (look) {
            heard.insert(session.progress[step].swept.begin(), session.progress[step].swept.end());
        }
    }
    std::vector<FoundString> found;
    found.reserve(heard.size());
    for (const auto& [string, mark] : heard) {
        if (mark.good) {
            found.push_back({string, mark.deviation, mark.uncertainty});
        }
    }
    return found;
}

/// The instrument with the choirs alone that the session tunes: what is left alone costs nothing.
Instrument tunedPart(const Instrument& instrument, const TuningPlan& plan) {
    Instrument part = instrument;
    for (std::size_t choir = 0; choir < part.choirs.size(); ++choir) {
        if (std::none_of(plan.steps.begin(), plan.steps.end(), [choir](const TuningStep& step) {
                return step.setsString() && step.string.choir == choir;
            })) {
            part.choirs[choir].strings.clear();
        }
    }
    return part;
}

/// Another instrument's pitch as a shift of this one's.
std::optional<FoundString> fromStandard(double a4Hz, const std::optional<HeardPitch>& heard) {
    constexpr Cents kOtherStandard(50.0);
    if (!heard) {
        return std::nullopt;
    }
    const Cents shift = interval(Hertz(a4Hz), Hertz(standardShifted(heard->a4Hz, Cents(0.0))));
    return abs(shift) < kOtherStandard ? std::optional(FoundString{{}, shift, heard->uncertainty})
                                       : std::nullopt;
}

} // namespace

std::optional<LookOffers> lookOffers(const TuningModel& tuning,
                                     const PlayerSpeed& speed,
                                     const std::optional<HeardPitch>& heard) {
    if (!tuning.ready() || tuning.choice().extent != Extent::Whole) {
        return std::nullopt;
    }
    const std::vector<FoundString> found = foundIn(tuning.session());
    if (found.empty()) {
        return std::nullopt;
    }
    const Instrument part = tunedPart(tuning.instrument(), *tuning.session().plan);
    const std::vector<PitchOffer> offers = pitchOffers(part,
                                                       found,
                                                       tuning.choice().options.tolerances.bearings,
                                                       speed,
                                                       fromStandard(tuning.choice().a4Hz, heard));
    LookOffers look;
    look.heard = found.size();
    for (const Choir& choir : part.choirs) {
        look.strings += choir.strings.size();
    }
    for (const PitchOffer& offer : offers) {
        if (offer.kind == PitchOffer::Kind::Standard) {
            look.standard = offer;
        } else if (offer.kind == PitchOffer::Kind::AsHeard) {
            look.asHeard = offer;
        } else if (offer.strings <= offers.front().strings - 1.0) {
            look.alone = offer;
        }
    }
    return look;
}

} // namespace quillbench
