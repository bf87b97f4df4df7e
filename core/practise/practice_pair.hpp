#pragma once

#include "core/analysis/pair_heard.hpp"
#include "core/dsp/beat_estimator.hpp"
#include "core/practise/exercise.hpp"
#include "core/virtual/virtual_instrument.hpp"

#include <optional>
#include <vector>

namespace quillbench {

/// Two strings of a virtual instrument that are practised on. What is played, what is measured and what is true all come
/// from these settings: the same settings and commands give the same samples.
struct PracticePair {
    const Instrument* instrument = nullptr;
    VirtualSettings settings;
    StringId lower;
    StringId upper;
    IntervalKind interval = IntervalKind::Unison;
    std::optional<StringId> pin; ///< whose pin is turned; nothing: the upper's
    int multiple = 1; ///< of the lowest partials that meet: what is listened to, and drawn
};

/// Whose pin is turned.
[[nodiscard]] StringId pinOf(const PracticePair& pair);

/// From the beginning of a sound to the pluck of both strings.
inline constexpr Seconds kPluckAfter{0.05};

/// A pin as it is in an old block: it follows late, springs back, jumps a little. Common practice, no source.
[[nodiscard]] PinBehaviour ordinaryPin();

/// The whole instrument by `pitchOfKey`, as it is practised on: ordinary pins, no room, no noise of the action.
[[nodiscard]] VirtualSettings practiceStrings(const Instrument& instrument,
                                              const std::function<Hertz(const Note&)>& pitchOfKey,
                                              std::uint64_t seed,
                                              SampleRate rate);

/// The strings of an exercise: the whole instrument by `pitchOfKey`, the upper string so that the pair truly beats as the
/// exercise says (by the strings' own motion, stiffness and glide included).
/// **Range** `instrument` outlives the pair and is the one the exercise was drawn from. **Accuracy** 0.01 beat a second
/// (practice_pair_test).
[[nodiscard]] PracticePair pairOf(const Instrument& instrument,
                                  const Exercise& exercise,
                                  const std::function<Hertz(const Note&)>& pitchOfKey,
                                  SampleRate rate);

/// The frame of a fresh sound at which pluckBoth() is told, so that both are plucked at kPluckAfter.
[[nodiscard]] FrameIndex firstPluck(const PracticePair& pair);

/// What plucks both strings at a frame.
[[nodiscard]] std::vector<VirtualCommand> pluckBoth(const PracticePair& pair, FrameIndex at);

/// What lets both go.
[[nodiscard]] std::vector<VirtualCommand> dampBoth(const PracticePair& pair, FrameIndex at);

/// The sound of both strings plucked once, from its beginning; the very samples that a virtual instrument with these
/// settings plays. **Range** length > kPluckAfter.
[[nodiscard]] std::vector<float> soundOf(const PracticePair& pair, Seconds length);

/// The beat by the strings' own motion, without any estimator: + = wide. Nothing where one of the partials that meet
/// is not heard.
[[nodiscard]] std::optional<BeatRate> trueBeat(const PracticePair& pair);

/// What the analysis hears in the sound.
struct PracticeMeasured {
    BeatReading
        reading; ///< as the command line's `beats` reads it, the lower string heard alone before
    PairHeard breath; ///< what is drawn
    std::optional<BeatRate> truth;
};

/// Plays and listens: the lower string alone, then both for `length`. **Range** 1 s ≤ length ≤ 12 s.
[[nodiscard]] PracticeMeasured measure(const PracticePair& pair, Seconds length);

} // namespace quillbench
