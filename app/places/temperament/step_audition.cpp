#include "app/places/temperament/step_audition.hpp"

#include "app/models/sound_bench.hpp"
#include "app/places/temperament/temperament_text.hpp"
#include "app/text/core_text.hpp"
#include "core/instrument/examples.hpp"
#include "core/practise/practice_bearings.hpp"

#include <QCoreApplication>

namespace quillbench {

namespace {

struct AuditionText {
    Q_DECLARE_TR_FUNCTIONS(AuditionText)
};

/// With a second 8′, which stands for the fork.
constexpr const char* kHeardOn = "double-8-8-4";

} // namespace

StepAudition::StepAudition(SoundBench& bench) : bench_(bench), sound_(bench.worker()) {
}

QString StepAudition::play(const TunedScale& scale, const BearingStep& step) {
    const auto pair = pairAsLaid(*findExample(kHeardOn), scale, step, sound_.rate());
    if (!pair) {
        return AuditionText::tr("The virtual instrument has no two strings for this step.");
    }
    if (!playing_) {
        playing_ = true;
        bench_.hush(true);
        sound_.enter();
    }
    sound_.play(*pair);
    const QString wrong = trouble();
    return wrong.isEmpty() ? AuditionText::tr("Sounds: %1").arg(bearingText(step)) : wrong;
}

QString StepAudition::trouble() const {
    const EngineState state = sound_.state();
    return playing_ && state.error ? errorText(*state.error) : QString();
}

void StepAudition::leave(bool hushed) {
    if (!playing_) {
        return;
    }
    playing_ = false;
    sound_.leave();
    if (!hushed) {
        bench_.hush(false);
    }
}

} // namespace quillbench
