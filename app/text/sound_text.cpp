#include "app/text/sound_text.hpp"

#include "app/text/core_text.hpp"
#include "app/text/format.hpp"

#include <QCoreApplication>

namespace quillbench {

namespace {

struct SoundText {
    Q_DECLARE_TR_FUNCTIONS(SoundText)
};

QString withReason(const QString& text, const EngineState& state) {
    return state.error ? SoundText::tr("%1: %2").arg(text, errorText(*state.error)) : text;
}

} // namespace

QString sourceText(const QString& source, const EngineState& state) {
    switch (state.phase) {
    case EnginePhase::Idle:
        return SoundText::tr("%1: not started").arg(source);
    case EnginePhase::Starting:
        return SoundText::tr("%1: starting").arg(source);
    case EnginePhase::Running:
        return SoundText::tr("%1: listening").arg(source);
    case EnginePhase::Silent:
        return withReason(SoundText::tr("%1 sends nothing").arg(source), state);
    case EnginePhase::Lost:
        if (state.neverThere) {
            return withReason(source, state);
        }
        return withReason(
            SoundText::tr("%1 is lost, it is tried again every second; the session is kept")
                .arg(source),
            state);
    case EnginePhase::Recovering:
        return SoundText::tr("%1 is back, waiting for its sound").arg(source);
    case EnginePhase::Ended:
        return SoundText::tr("%1: heard to its end").arg(source);
    case EnginePhase::Failed:
        return withReason(SoundText::tr("%1 cannot be used").arg(source), state);
    }
    return {};
}

QString microphoneText(const MicrophoneState& microphone) {
    if (microphone.clipped) {
        return SoundText::tr("Too loud, the sound is clipped: lower the input level or move the "
                             "microphone away a little.");
    }
    if (microphone.automaticGain) {
        return SoundText::tr(
            "The microphone changes its own level: turn off automatic gain in the sound settings.");
    }
    if (microphone.gated) {
        return SoundText::tr(
            "The sound is cut between notes: turn off noise suppression in the sound settings.");
    }
    return {};
}

QString warningText(const StringReading& reading) {
    if (reading.has(Warning::TwoStrings)) {
        return SoundText::tr("Two strings sound: is another register on?");
    }
    if (reading.has(Warning::RingingTwin)) {
        return SoundText::tr(
            "A silenced string rings along: a strip of felt between its neighbours cures it.");
    }
    if (reading.has(Warning::FalseBeat)) {
        return SoundText::tr("This string beats by itself: that cannot be tuned away.");
    }
    if (reading.has(Warning::Clipped)) {
        return SoundText::tr("The sound was clipped.");
    }
    if (reading.has(Warning::Noisy)) {
        return SoundText::tr("Much noise: the reading is less sure.");
    }
    if (reading.has(Warning::OffTarget)) {
        return SoundText::tr("Far from its target, at the edge of what is looked at.");
    }
    return {};
}

} // namespace quillbench
