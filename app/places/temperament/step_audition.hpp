#pragma once

#include "app/places/practise/practise_sound.hpp"
#include "core/temperament/bearings.hpp"

#include <QString>

namespace quillbench {

class SoundBench;

/// Lets a step of a bearing plan be heard: two strings of an invented instrument, beating as the step asks. Meanwhile the
/// session's virtual instrument is kept from the loudspeaker. **Thread** GUI.
class StepAudition {
public:
    /// `bench` must outlive this.
    explicit StepAudition(SoundBench& bench);

    /// What the loudspeaker is known to prefer.
    void setOutputRate(SampleRate rate) { sound_.setRate(rate); }

    /// Plucks the two strings. Gives what came of it in words. Takes a tenth of a second.
    [[nodiscard]] QString play(const TunedScale& scale, const BearingStep& step);

    /// What is wrong with the loudspeaker; empty: nothing, or not yet known.
    [[nodiscard]] QString trouble() const;

    /// Between the first play() and leave().
    [[nodiscard]] bool playing() const { return playing_; }

    /// Lets the strings fade; `hushed`: somebody else takes the loudspeaker next.
    void leave(bool hushed);

private:
    SoundBench& bench_;
    PractiseSound sound_;
    bool playing_ = false;
};

} // namespace quillbench
