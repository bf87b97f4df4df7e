#include "core/workflow/plan_builder.hpp"

#include "core/support/contract.hpp"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <utility>

namespace quillbench::detail {

PlanBuilder::PlanBuilder(const Instrument& instrument,
                         const TunedScale& scale,
                         const PlanOptions& options,
                         const FactsOfString& factsOf)
    : instrument_(instrument),
      scale_(scale),
      options_(options),
      factsOf_(factsOf) {
    plan_.choir = options.reference;
    plan_.approach = options.approach;
}

std::vector<std::size_t> PlanBuilder::choirsInOrder() const {
    std::vector<std::size_t> choirs{options_.reference};
    for (const Footage footage : {Footage::Eight, Footage::Four, Footage::Sixteen}) {
        for (std::size_t choir = 0; choir < instrument_.choirs.size(); ++choir) {
            const auto& leave = options_.leaveAlone;
            if (choir != options_.reference && instrument_.choirs[choir].footage == footage &&
                std::find(leave.begin(), leave.end(), choir) == leave.end()) {
                choirs.push_back(choir);
            }
        }
    }
    return choirs;
}

std::optional<Reach> PlanBuilder::reachOf(StringId string) const {
    if (const auto key = keyAt(instrument_, string.course, options_.position)) {
        return Reach{*key, options_.position};
    }
    for (const int position : instrument_.positions) {
        if (const auto key = keyAt(instrument_, string.course, position)) {
            return Reach{*key, position};
        }
    }
    return std::nullopt;
}

Cents PlanBuilder::toleranceOf(StringId string, Cents atBearings) const {
    const int low = options_.bearingsFrom.midiNumber();
    const int key = keyNote(instrument_, string, options_.position).midiNumber();
    const int lowest = instrument_.compass.keys.front().note.midiNumber();
    const int highest = instrument_.compass.keys.back().note.midiNumber();
    const double widen = std::max(1.0,
                                  options_.tolerances.extremes.value() /
                                      std::max(options_.tolerances.bearings.value(), 0.01));
    double part = 0.0;
    if (key < low && low > lowest) {
        part = static_cast<double>(low - key) / (low - lowest);
    } else if (key > low + 12 && highest > low + 12) {
        part = static_cast<double>(key - low - 12) / (highest - low - 12);
    }
    return atBearings * (1.0 + std::clamp(part, 0.0, 1.0) * (widen - 1.0));
}

TuningStep PlanBuilder::stepFor(StringId string, Phase phase, StepWork work) const {
    const auto reach = reachOf(string);
    EXPECTS(reach.has_value());
    TuningStep step;
    step.string = string;
    step.key = reach->key;
    step.note = instrument_.compass.keys[reach->key].note;
    step.facts = facts(string);
    step.ceiling = ceilingAboveTarget(step.facts.marginLow);
    step.phase = phase;
    step.work = work;
    step.tolerance = phase == Phase::RoughPass ? options_.tolerances.rough
                     : string.choir == options_.reference
                         ? toleranceOf(string, options_.tolerances.bearings)
                         : toleranceOf(string, options_.tolerances.unisons);
    step.alone = drawingFor(instrument_, {string.choir}, reach->position);
    if (work == StepWork::Set) {
        step.alone = quietened(step.alone);
    }
    step.together = step.alone;
    return step;
}

Drawing PlanBuilder::quietened(Drawing drawing) const {
    return options_.feltOnSilenced ? withFeltOnSilenced(instrument_, std::move(drawing)) : drawing;
}

PairAim PlanBuilder::aimAt(const TuningStep& step,
                           StringId against,
                           IntervalKind interval,
                           BeatRate beat) const {
    const StringFacts other = facts(against);
    const auto key = keyAt(instrument_, against.course, step.alone.registration.position);
    EXPECTS(key.has_value());
    PairAim aim = pairAim(
        step.facts, other, interval, step.facts.target >= other.target, beat, step.tolerance);
    aim.against = against;
    aim.key = *key;
    aim.note = instrument_.compass.keys[*key].note;
    return aim;
}

void PlanBuilder::add(TuningStep step) {
    const auto rely = [&](StringId string) {
        const auto by = setBy_.find(string);
        EXPECTS(by != setBy_.end());
        if (std::find(step.needs.begin(), step.needs.end(), by->second) == step.needs.end()) {
            step.needs.push_back(by->second);
        }
    };
    if (step.pair) {
        rely(step.pair->against);
    }
    if (step.alike) {
        rely(step.alike->against);
    }
    for (const IntervalCheck& check : step.checks) {
        for (const StringId string : {check.lower, check.upper}) {
            if (string != step.string) {
                rely(string);
            }
        }
    }
    if (step.work == StepWork::Check) {
        rely(step.string);
    }
    if (step.setsString()) {
        setBy_[step.string] = plan_.steps.size();
    }
    if (step.work == StepWork::Set) {
        forGood_[step.string] = plan_.steps.size();
    }
    plan_.steps.push_back(std::move(step));
}

std::vector<std::size_t> PlanBuilder::coursesInOrder() const {
    std::vector<std::size_t> courses;
    for (const TuningStep& step : plan_.steps) {
        if (step.work == StepWork::Set && step.string.choir == options_.reference) {
            courses.push_back(step.string.course);
        }
    }
    return courses;
}

} // namespace quillbench::detail
