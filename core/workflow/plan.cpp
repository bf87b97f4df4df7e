#include "core/workflow/plan.hpp"

#include "core/support/contract.hpp"

#include <algorithm>
#include <cstdlib>
#include <utility>

namespace quillbench {

namespace {

constexpr int kChromaOfA = 9;

/// A first, then by distance from it in semitones, the lower neighbour before the upper.
void orderFromA(std::vector<TuningStep>& steps) {
    const auto a = std::find_if(steps.begin(), steps.end(), [](const TuningStep& step) {
        return step.note.pitchClass.chroma() == kChromaOfA;
    });
    if (a == steps.end()) {
        return;
    }
    const int centre = a->note.midiNumber();
    std::stable_sort(
        steps.begin(), steps.end(), [centre](const TuningStep& left, const TuningStep& right) {
            return std::abs(left.note.midiNumber() - centre) <
                   std::abs(right.note.midiNumber() - centre);
        });
}

} // namespace

Result<TuningPlan> planFirstOctave(const Instrument& instrument,
                                   const PlanOptions& options,
                                   const FactsOfString& factsOf) {
    const std::size_t choir = options.reference;
    EXPECTS(choir < instrument.choirs.size());
    const int low = options.bearingsFrom.midiNumber();
    TuningPlan plan;
    plan.choir = choir;
    plan.approach = options.approach;
    Drawing alone = drawingFor(instrument, {choir}, options.position);
    if (options.feltOnSilenced) {
        alone = withFeltOnSilenced(instrument, std::move(alone));
    }
    bool hasLow = false;
    bool hasHigh = false;
    const std::vector<Key>& keys = instrument.compass.keys;
    for (std::size_t key = 0; key < keys.size(); ++key) {
        const int midi = keys[key].note.midiNumber();
        if (midi < low || midi > low + 12) {
            continue;
        }
        hasLow = hasLow || midi == low;
        hasHigh = hasHigh || midi == low + 12;
        TuningStep step;
        step.string = StringId{choir, courseOf(instrument, key, options.position)};
        if (step.string.course >= instrument.choirs[choir].strings.size()) {
            continue;
        }
        step.key = key;
        step.note = keys[key].note;
        step.facts = factsOf(step.string);
        step.tolerance = options.tolerances.bearings;
        step.ceiling = ceilingAboveTarget(step.facts.marginLow);
        step.alone = alone;
        step.together = alone;
        plan.steps.push_back(step);
    }
    if (!hasLow || !hasHigh) {
        return failure(ErrorCode::BadArgument,
                       "the octave from " + toAscii(options.bearingsFrom) +
                           " is not whole on this compass; choose C3 or F3 as its lowest key");
    }
    if (options.bearingsOrder == StepOrder::FromA) {
        orderFromA(plan.steps);
    }
    return plan;
}

} // namespace quillbench
