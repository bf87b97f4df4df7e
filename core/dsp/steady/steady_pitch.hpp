#pragma once

#include "core/dsp/steady/tone_look.hpp"
#include "core/units/cents.hpp"
#include "core/units/frames.hpp"
#include "core/units/hertz.hpp"

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace quillbench {

/// The pitch of a tone that is held.
struct SteadyPitch {
    Hertz pitch;
    Cents uncertainty; ///< standard uncertainty of the mean, the clock's not in it
    Cents
        waver; ///< standard deviation of the pitch over a few hundredths of a second: vibrato, wind, noise
    Seconds length{0}; ///< that was heard of it
};

/// Follows a held tone through sound as it comes. Another pitch (60 cents off), silence or noise begins anew. The
/// uncertainty is the scatter of the looks over the root of their number, with half of what the second half of the tone
/// differs from the first by, a tenth of the waver (so much of a vibrato from 4.5 a second on is left in the mean of a
/// look: 3(sin x − x cos x)/x³ of it at x = π · rate · length) and a floor of 0.05 cents.
/// **Thread** one at a time; push() allocates.
class SteadyPitchFollower {
public:
    explicit SteadyPitchFollower(SampleRate rate);

    /// More sound, right after what was pushed before.
    void push(std::span<const float> samples);

    /// Sound was lost.
    void restart();

    /// Of the tone that sounds now; nothing before two seconds and a half of it.
    [[nodiscard]] std::optional<SteadyPitch> reading() const;

    /// Whether a tone sounds now, however short.
    [[nodiscard]] bool sounds() const { return !looks_.empty(); }

private:
    [[nodiscard]] std::size_t pause() const;
    void take(const std::optional<ToneSeen>& seen);

    SampleRate rate_;
    ToneLook look_;
    std::vector<float> waiting_;  ///< of which no look is complete yet
    std::vector<ToneSeen> looks_; ///< of the tone that sounds now
    std::size_t looked_ = 0;
    double loudest_ = 0; ///< power
};

} // namespace quillbench
