#pragma once

#include "core/workflow/session.hpp"

#include <memory>

namespace quillbench::test {

/// A plan of thirteen invented strings, C3 to C4, chromatic.
inline std::shared_ptr<const TuningPlan> octavePlan(Cents marginLow = Cents(300.0)) {
    static const char* const names[] = {
        "C3", "C#3", "D3", "Eb3", "E3", "F3", "F#3", "G3", "G#3", "A3", "Bb3", "B3", "C4"};
    auto plan = std::make_shared<TuningPlan>();
    for (std::size_t key = 0; key < 13; ++key) {
        TuningStep step;
        step.key = key;
        step.string = StringId{0, key};
        step.note = *parseNote(names[key]);
        step.facts =
            StringFacts{Hertz(130.0 + 10.0 * static_cast<double>(key)), 1e-5, marginLow, 5.0};
        step.ceiling = ceilingAboveTarget(marginLow);
        plan->steps.push_back(step);
    }
    return plan;
}

/// A finished, sure reading of one string.
inline Heard pluck(std::size_t key, double deviation, double uncertainty = 0.1) {
    Heard heard;
    heard.reading.standing = Standing::Ok;
    heard.reading.string = StringId{0, key};
    heard.reading.deviation = Cents(deviation);
    heard.reading.deviationUncertainty = Cents(uncertainty);
    heard.uncertainty = Cents(uncertainty);
    return heard;
}

} // namespace quillbench::test
