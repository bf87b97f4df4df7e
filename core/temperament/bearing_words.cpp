#include "core/temperament/bearings.hpp"
#include "core/temperament/beat_table.hpp"

#include <cmath>
#include <cstdio>

namespace quillbench {

namespace {

constexpr double kAlmostStill = 0.15; // beats a second; the note dies before the second beat

std::string oneDecimal(double value) {
    const auto tenths = std::lround(value * 10.0);
    return std::to_string(tenths / 10) + "." + std::to_string(tenths % 10);
}

std::string withArticle(IntervalKind kind) {
    const std::string name(intervalOf(kind).name);
    return (name == "octave" ? "an " : "a ") + name;
}

/// "0.8 beats a second narrow (a beat in 1.2 s)", "beatless".
std::string beatsInWords(BeatRate beat) {
    const double rate = abs(beat).perSecond();
    if (!(rate > 0.0)) {
        return "beatless";
    }
    const std::string direction = beat.perSecond() > 0.0 ? "wide" : "narrow";
    if (rate < kAlmostStill) {
        return "all but beatless, a hair " + direction;
    }
    if (rate < 1.0) {
        return oneDecimal(rate) + " beats a second " + direction + " (one beat in " +
               oneDecimal(1.0 / rate) + " s)";
    }
    return oneDecimal(rate) + " beats a second " + direction;
}

bool isUpper(const BearingStep& step) {
    return step.tune.midiNumber() >= step.against.midiNumber();
}

/// Which way to go from pure.
std::string settlingFromPure(const BearingStep& step) {
    const bool wide = step.beat.perSecond() > 0.0;
    return "first pure, then " + toDisplay(step.tune) +
           (wide == isUpper(step) ? " a little higher" : " a little lower");
}

std::string tuneInWords(const BearingStep& step) {
    const std::string note = toDisplay(step.tune);
    const std::string other = toDisplay(step.against);
    if (step.fromStandard) {
        char hz[32];
        std::snprintf(hz,
                      sizeof hz,
                      "%ld.%02ld",
                      std::lround(step.pitch.value() * 100.0) / 100,
                      std::lround(step.pitch.value() * 100.0) % 100);
        if (step.interval == IntervalKind::Unison) {
            return "Set " + note + " to the pitch standard, " + hz + " Hz, without beats.";
        }
        return "Set " + note + ", " + hz + " Hz, " + withArticle(step.interval) + " from " + other +
               " of the pitch standard, without beats.";
    }
    const std::string place = isUpper(step) ? " above " : " below ";
    const std::string head = "Tune " + note + place + other + ": " + withArticle(step.interval);
    if (!(abs(step.beat).perSecond() > 0.0)) {
        return head + ", beatless.";
    }
    if (abs(step.beat) > kFastestCountable) {
        return head + " that beats too fast to count; set it by the meter.";
    }
    return head + ", " + beatsInWords(step.beat) + "; " + settlingFromPure(step) + ".";
}

std::string shareInWords(const BearingStep& step) {
    const SharedInterval& second = *step.alike;
    return "Set " + toDisplay(step.tune) + " so that the " +
           std::string(intervalOf(step.interval).name) + " with " + toDisplay(step.against) +
           " and the " + std::string(intervalOf(second.interval).name) + " with " +
           toDisplay(second.with) + " feel alike: " + beatsInWords(step.beat) + ", and " +
           beatsInWords(second.beat) + ".";
}

} // namespace

std::string inWords(const BearingStep& step) {
    switch (step.kind) {
    case StepKind::Tune:
        return tuneInWords(step);
    case StepKind::Temporary:
        return "For now, tune " + toDisplay(step.tune) + " " +
               (isUpper(step) ? "above " : "below ") + toDisplay(step.against) + " as " +
               withArticle(step.interval) + ", beatless; it is corrected later.";
    case StepKind::Share:
        return shareInWords(step);
    case StepKind::Check:
        return "Check " + toDisplay(isUpper(step) ? step.against : step.tune) + "\u2013" +
               toDisplay(isUpper(step) ? step.tune : step.against) + ": " +
               withArticle(step.interval) + ", " + beatsInWords(step.beat) + ".";
    }
    return {};
}

} // namespace quillbench
