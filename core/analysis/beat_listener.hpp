#pragma once

#include "core/analysis/pair_heard.hpp"
#include "core/analysis/target.hpp"
#include "core/units/frames.hpp"
#include "core/units/hertz.hpp"

#include <memory>
#include <optional>
#include <span>

namespace quillbench {

struct StringReading;

/// Listens to two strings that sound together. It is told what was plucked, hears the same sound as the analyser, and
/// says how the pair beats: at once from the envelopes of the meeting partials, after one and two seconds and at the
/// end from the joint fit of both strings. It remembers every string that was heard alone, and its sound.
/// What it says depends on the sound and on what it was told, at fixed frames; never on blocks.
/// **Thread** one at a time. Allocates where a pair begins and in the joint fits, never a block for a block.
class BeatListener {
public:
    /// How far back sound is kept.
    static constexpr Seconds kHistory{12.0};

    /// A pair's sound is followed this long at the most.
    static constexpr Seconds kLongest{12.0};

    /// **Range** nominal 8 to 192 kHz; `calibrated` is the same by the true clock.
    BeatListener(SampleRate nominal, SampleRate calibrated);
    ~BeatListener();
    BeatListener(BeatListener&&) noexcept;
    BeatListener& operator=(BeatListener&&) noexcept;
    BeatListener(const BeatListener&) = delete;
    BeatListener& operator=(const BeatListener&) = delete;

    /// Sound begins anew at a frame: after a start or a gap. What was heard alone stays known.
    void restart(FrameIndex first);

    /// The next samples, full scale ±1.
    void push(std::span<const float> samples);

    /// One string was heard alone: its last reading.
    void heardAlone(const StringReading& reading);

    /// Hears out partials of a string that sounded alone: where a partial beats with itself and dies, a model of its two
    /// polarisations knows its mean frequency better than what was left above the noise. Changes those of `reading`.
    /// Allocates. **Range** the reading's last, of a string that sounded alone; partials 1 to 40.
    void hearOut(StringReading& reading, std::span<const int> partials) const;

    /// Two strings sound together from the later pluck on; `sound` is what was heard since then.
    /// `worked`: the string whose pin is worked at, so that nothing heard of it before tells where it stands.
    /// **Range** the two make an interval that is tuned by beats: intervalBetween() has a value.
    void begin(const ExpectedString& lower,
               const ExpectedString& upper,
               std::optional<StringId> worked,
               FrameIndex lowerPluck,
               FrameIndex upperPluck,
               std::span<const float> sound);

    /// Looks, at a regular instant of the sound: about fifteen times a second.
    void look();

    /// The pair is over: damped, plucked again, or something else was played.
    void end();

    [[nodiscard]] bool listening() const;

    /// The pair that sounds or sounded last; nothing before the first, and after forget().
    [[nodiscard]] const std::optional<PairHeard>& heard() const;

    /// The last word on a pair, once: taken from the oldest.
    [[nodiscard]] std::optional<PairReading> takeFinished();

    /// Another string alone was played: the pair of before is no longer shown.
    void forget();

private:
    struct Impl;
    std::unique_ptr<Impl> impl_;
};

/// The interval of the list that two pitches make, to 60 cents; nothing where they make none, or downwards.
[[nodiscard]] std::optional<IntervalKind> intervalBetween(Hertz lower, Hertz upper);

/// How loud the ear takes a level at a frequency against 1 kHz, in dB: the A curve.
/// **Source** IEC 61672-1, value from memory.
[[nodiscard]] double earWeight(Hertz frequency);

} // namespace quillbench
