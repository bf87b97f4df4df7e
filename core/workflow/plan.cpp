#include "core/workflow/plan.hpp"

#include "core/support/contract.hpp"

#include <algorithm>
#include <cstdlib>

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
                                   std::size_t choir,
                                   Note lowest,
                                   StepOrder order,
                                   const FactsOfString& factsOf,
                                   int position) {
    EXPECTS(choir < instrument.choirs.size());
    const int low = lowest.midiNumber();
    TuningPlan plan;
    plan.choir = choir;
    const Drawing alone = drawingFor(instrument, {choir}, position);
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
        step.string = StringId{choir, courseOf(instrument, key, position)};
        if (step.string.course >= instrument.choirs[choir].strings.size()) {
            continue;
        }
        step.key = key;
        step.note = keys[key].note;
        step.facts = factsOf(step.string);
        step.ceiling = ceilingAboveTarget(step.facts.marginLow);
        step.alone = alone;
        step.together = alone;
        plan.steps.push_back(step);
    }
    if (!hasLow || !hasHigh) {
        return failure(ErrorCode::BadArgument,
                       "the octave from " + toAscii(lowest) +
                           " is not whole on this compass; choose C3 or F3 as its lowest key");
    }
    if (order == StepOrder::FromA) {
        orderFromA(plan.steps);
    }
    return plan;
}

} // namespace quillbench
