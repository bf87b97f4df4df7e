#include "core/workflow/following.hpp"

#include "core/support/contract.hpp"

#include <algorithm>
#include <cmath>

namespace quillbench::detail {

namespace {

bool sweeps(const TuningStep& step, StringId string) {
    return std::find(step.sweep.begin(), step.sweep.end(), string) != step.sweep.end();
}

bool belongs(const TuningStep& step, StringId string) {
    if (step.work == StepWork::Sweep) {
        return sweeps(step, string);
    }
    return step.string == string || (step.pair && step.pair->against == string);
}

/// It was the last one heard of what the current step asked for.
bool endedSweep(const Session& session, StringId string) {
    const auto& swept = session.here().swept;
    const auto mark = swept.find(string);
    return session.step().work == StepWork::Sweep && mark != swept.end() &&
           std::none_of(swept.begin(), swept.end(), [&mark](const auto& other) {
               return other.second.at > mark->second.at;
           });
}

bool pairs(const TuningStep& step, StringId lower, StringId upper) {
    return step.pair && ((step.string == lower && step.pair->against == upper) ||
                         (step.string == upper && step.pair->against == lower));
}

} // namespace

std::optional<std::size_t> stepOfString(const Session& session, StringId string) {
    const auto& steps = session.plan->steps;
    if (!session.done(session.current) && belongs(session.step(), string)) {
        return session.current;
    }
    if (const auto asked = session.asked(); asked && belongs(steps[*asked], string)) {
        return asked;
    }
    if (endedSweep(session, string)) {
        return session.current; // plucked once more
    }
    if (session.step().work != StepWork::Sweep && session.step().string == string) {
        return session.current;
    }
    for (std::size_t i = 0; i < steps.size(); ++i) {
        if (steps[i].setsString() && steps[i].string == string && !session.done(i)) {
            return i;
        }
    }
    return session.plan->stepOf(string);
}

std::optional<std::size_t> stepOfPair(const Session& session, StringId lower, StringId upper) {
    const auto& steps = session.plan->steps;
    if (pairs(session.step(), lower, upper)) {
        return session.current;
    }
    std::optional<std::size_t> done;
    for (std::size_t i = 0; i < steps.size(); ++i) {
        if (pairs(steps[i], lower, upper)) {
            if (!session.done(i)) {
                return i;
            }
            done = i;
        }
    }
    return done;
}

std::size_t firstOpen(const Session& session, std::size_t step) {
    // A step relies on earlier ones alone, so this ends.
    for (const std::size_t need : session.plan->steps[step].needs) {
        if (!session.done(need)) {
            return firstOpen(session, need);
        }
    }
    return step;
}

Mark markOfPair(const TuningStep& step, const HeardPair& heard) {
    EXPECTS(step.pair.has_value());
    const PairAim& aim = *step.pair;
    const PartialPair lowest = intervalOf(aim.interval).pair;
    const double times = static_cast<double>(aim.pair.ofLower) / lowest.ofLower;
    const double wanted = aim.beat.perSecond() / times;
    // The pair that is listened to beats `times` as fast as the lowest, so a cent there is as many beats more.
    const double beatsPerCent = aim.tolerance.perSecond() / (times * step.tolerance.value());
    Mark mark;
    mark.at = heard.at;
    mark.good = !heard.weak;
    mark.ofPair = true;
    mark.referenceHeard = heard.referenceHeard;
    double off = heard.beat.perSecond() - wanted;
    if (heard.direction == BeatDirection::Unknown) {
        // Without a direction the nearer of the two: only its size is sure.
        off = std::abs(heard.beat.perSecond()) - std::abs(wanted);
        off = std::copysign(off, wanted < 0.0 ? -off : off);
        mark.signKnown = false;
    }
    mark.deviation = Cents((aim.tunedIsUpper ? off : -off) / beatsPerCent);
    mark.uncertainty = Cents(heard.uncertainty / beatsPerCent);
    return mark;
}

} // namespace quillbench::detail
