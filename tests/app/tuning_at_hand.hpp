#pragma once

#include "app/models/tuning_model.hpp"

#include <catch2/catch.hpp>

namespace quillbench::test {

/// The first octave of a built-in example, upwards from C3.
inline TuningChoice firstOctave() {
    TuningChoice choice;
    choice.instrument = QStringLiteral("double-8-8-4");
    choice.choir = QStringLiteral("8");
    choice.temperament = QStringLiteral("vallotti");
    choice.lowest = QStringLiteral("C3");
    choice.order = StepOrder::Chromatic;
    return choice;
}

/// A finished, sure reading of the string of one step.
inline StringReading readingOf(const TuningModel& model, std::size_t step, double deviation) {
    StringReading reading;
    reading.standing = Standing::Ok;
    reading.string = model.session().plan->steps[step].string;
    reading.target = model.session().plan->steps[step].facts.target;
    reading.deviation = Cents(deviation);
    reading.deviationUncertainty = Cents(0.1);
    reading.pitch = transpose(reading.target, reading.deviation);
    return reading;
}

inline void settle(TuningModel& model, std::size_t step) {
    for (int i = 0; i < 3; ++i) {
        model.hear(readingOf(model, step, 0.1), Seconds(i));
    }
}

inline void chooseFirstOctave(TuningModel& model) {
    REQUIRE(model.choose(firstOctave()));
}

} // namespace quillbench::test
