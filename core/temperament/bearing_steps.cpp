#include "core/temperament/bearing_steps.hpp"

#include "core/support/contract.hpp"

#include <cmath>
#include <utility>

namespace quillbench::detail {

namespace {

struct Heard {
    IntervalKind interval = IntervalKind::Unison;
    BeatRate beat;
};

/// What two notes at these pitches do, whichever is the upper one.
Heard heard(const Note& one, Hertz onePitch, const Note& other, Hertz otherPitch) {
    const bool upwards = one.midiNumber() <= other.midiNumber();
    const auto kind = upwards ? intervalOfKeys(one, other) : intervalOfKeys(other, one);
    EXPECTS(kind.has_value());
    const Hertz lower = upwards ? onePitch : otherPitch;
    const Hertz upper = upwards ? otherPitch : onePitch;
    const BeatRate beat = beatRate(*kind, lower, upper);
    // What is pure by definition is off by rounding only.
    return {*kind, std::abs(beat.perSecond()) < 2e-12 * upper.value() ? BeatRate(0.0) : beat};
}

BearingStep made(StepKind kind, const Note& tune, Hertz pitch, const Note& against, Heard what) {
    BearingStep step;
    step.kind = kind;
    step.tune = tune;
    step.against = against;
    step.interval = what.interval;
    step.beat = what.beat;
    step.pitch = pitch;
    return step;
}

} // namespace

BearingStep stepOf(const TunedScale& scale, StepKind kind, const Note& tune, const Note& against) {
    const Hertz pitch = scale.pitchOf(tune);
    return made(kind, tune, pitch, against, heard(tune, pitch, against, scale.pitchOf(against)));
}

BearingStep
shareOf(const TunedScale& scale, const Note& tune, const Note& against, const Note& with) {
    BearingStep step = stepOf(scale, StepKind::Share, tune, against);
    const Heard second = heard(tune, step.pitch, with, scale.pitchOf(with));
    step.alike = SharedInterval{with, second.interval, second.beat};
    return step;
}

BearingStep temporaryOf(const TunedScale& scale, const Note& tune, const Note& against) {
    const Hertz standing = scale.pitchOf(against);
    const bool upwards = against.midiNumber() <= tune.midiNumber();
    const auto kind = upwards ? intervalOfKeys(against, tune) : intervalOfKeys(tune, against);
    EXPECTS(kind.has_value());
    const Hertz pitch = upwards ? upperAtBeat(*kind, standing, BeatRate(0.0))
                                : lowerAtBeat(*kind, standing, BeatRate(0.0));
    return made(StepKind::Temporary, tune, pitch, against, {*kind, BeatRate(0.0)});
}

BearingStep shareBetween(const TunedScale& scale,
                         const Note& tune,
                         const BearingStep& lower,
                         const BearingStep& upper) {
    const Hertz pitch = scale.pitchOf(tune);
    BearingStep step =
        made(StepKind::Share, tune, pitch, lower.tune, heard(tune, pitch, lower.tune, lower.pitch));
    const Heard second = heard(tune, pitch, upper.tune, upper.pitch);
    step.alike = SharedInterval{upper.tune, second.interval, second.beat};
    return step;
}

BearingStep fromStandard(const TunedScale& scale, const Note& tune, const Note& against) {
    BearingStep step = stepOf(scale, StepKind::Tune, tune, against);
    step.fromStandard = true;
    return step;
}

} // namespace quillbench::detail
