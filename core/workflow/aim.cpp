#include "core/workflow/aim.hpp"

#include "core/workflow/false_beats.hpp"

#include <algorithm>

namespace quillbench {

namespace {

/// A string further from its target may lie nearer to its neighbour's.
constexpr Cents kFarCents{35.0};
/// Where so many plucks in a row are taken for the other string alone, both may have been played at once when that was
/// asked for by itself.
constexpr std::size_t kOnlyOtherHeard = 3;

} // namespace

namespace detail {

std::optional<int> ownPartial(const TuningStep& step) {
    const auto& pair = step.pair;
    if (!pair || !pair->measured) {
        return std::nullopt;
    }
    return pair->tunedIsUpper ? pair->pair.ofUpper : pair->pair.ofLower;
}

int otherPartial(const PairAim& pair) {
    return pair.tunedIsUpper ? pair.pair.ofLower : pair.pair.ofUpper;
}

std::optional<PartialOffsets::Offset>
offsetOf(const Session& session, StringId string, int partial) {
    const auto found = session.partials.find(string);
    return found == session.partials.end() ? std::nullopt : found->second.at(partial);
}

ReferenceWish referenceWish(const Session& session, std::size_t step) {
    const TuningStep& one = session.plan->steps[step];
    if (!one.pair || one.pair->key == one.key) {
        return {}; // sounds from the same key
    }
    const auto beats = session.ownBeats.find(one.pair->against);
    ReferenceWish wish;
    wish.beats = beats != session.ownBeats.end() && beats->second.told > 0 &&
                 beats->second.told < kPlucksThatName && beats->second.of < 2 * kPlucksThatName &&
                 2 * beats->second.told >= beats->second.of;
    const bool onlyOther = session.progress[step].otherInARow >= kOnlyOtherHeard;
    wish.first = wish.beats || onlyOther || session.partials.count(one.pair->against) == 0;
    return wish;
}

bool staysWhereHeard(const Session& session, StringId string) {
    const auto setBy = session.plan->stepOf(string);
    return session.known.count(string) > 0 && (!setBy || session.done(*setBy));
}

} // namespace detail

Cents Session::aimOf(std::size_t step) const {
    const auto& pair = plan->steps[step].pair;
    if (!pair || !pair->measured) {
        return Cents(0.0);
    }
    if (!detail::staysWhereHeard(*this, pair->against)) {
        return Cents(0.0);
    }
    const auto other = known.find(pair->against);
    const auto heard = partials.find(pair->against);
    const auto offset = detail::offsetOf(*this, pair->against, detail::otherPartial(*pair));
    return pair->offset + (offset ? heard->second.pitch + offset->cents : other->second.deviation);
}

std::map<StringId, std::vector<int>> meetingPartials(const TuningPlan& plan) {
    std::map<StringId, std::vector<int>> meeting;
    const auto add = [&meeting](StringId string, int partial) {
        std::vector<int>& partials = meeting[string];
        const auto place = std::lower_bound(partials.begin(), partials.end(), partial);
        if (place == partials.end() || *place != partial) {
            partials.insert(place, partial);
        }
    };
    for (const TuningStep& step : plan.steps) {
        if (const auto own = detail::ownPartial(step)) {
            add(step.string, *own);
            add(step.pair->against, detail::otherPartial(*step.pair));
        }
    }
    return meeting;
}

std::optional<Cents> heardFar(const Session& session) {
    const auto asked = session.asked();
    if (!asked || session.progress[*asked].marks.empty()) {
        return std::nullopt;
    }
    const Mark& last = session.progress[*asked].marks.back();
    return last.good && abs(last.deviation) > kFarCents ? std::optional<Cents>(last.deviation)
                                                        : std::nullopt;
}

AnalysisTarget listenFor(const Session& session, const std::vector<ExpectedString>& strings) {
    AnalysisTarget target;
    const auto asked = session.asked();
    if (!asked) {
        target.strings = strings;
        target.pairs = true;
        return target;
    }
    const std::vector<std::size_t>& choirs = session.drawingOf(*asked).choirs;
    const bool sets = session.plan->steps[*asked].work != StepWork::Sweep;
    target.asked = session.stringToPlay(*asked);
    if (sets) {
        target.closely = meetingPartials(*session.plan);
    }
    if (session.covered(*asked)) {
        target.with = session.plan->steps[*asked].pair->against;
        target.withAlone = detail::referenceWish(session, *asked).first;
    }
    // Of many strings played one after the other the last may still ring: that is no pair.
    target.pairs = sets;
    target.askedLast = heardFar(session);
    target.askedMayBeFar = session.chosenByHand || target.askedLast.has_value();
    for (ExpectedString one : strings) {
        if (!choirs.empty() &&
            std::find(choirs.begin(), choirs.end(), one.id.choir) == choirs.end()) {
            continue;
        }
        if (sets && one.id == *target.asked) {
            one.target = transpose(one.target, session.aimOf(*asked));
        }
        target.strings.push_back(one);
    }
    return target;
}

} // namespace quillbench
