#pragma once

#include "core/analysis/target.hpp"
#include "core/units/cents.hpp"
#include "core/units/frames.hpp"
#include "core/units/hertz.hpp"

#include <array>
#include <cstddef>
#include <memory>
#include <optional>
#include <span>

namespace quillbench {

/// What the sound after a beginning of sound was taken for.
struct KeyVerdict {
    std::optional<StringId> string; ///< none: none of the strings expected, or not sure
    std::optional<Hertz> pitch;     ///< of partial 1, to a few cents; none: no new string is heard
    Cents offset;                   ///< of pitch from the string's target, where there is a string
    double evidence = 0.0;          ///< for a new string against noise, in nepers; 0 = none
    double margin = 0.0;            ///< evidence over that of the next best pitch
    double snrDb = 0.0;             ///< power of the new lines over that of the noise below 10 kHz
    bool settled = false;           ///< hearing more would not change it
};

/// Says which string a pluck was, from the spectrum of the energy that is new after it: what rang before is
/// predicted line by line across the pluck and taken away, and the comb of stiff partials that explains
/// most of the rest and lacks least wins.
/// **Accuracy** with the strings within ±45 cents of their targets ≥ 99.5 % right in quiet, ≥ 98 % at 10 dB SNR
/// (test "keys are recognised over the whole compass").
/// **Thread** one at a time; allocates in the constructor and in setTarget() only.
class KeyRecogniser {
public:
    /// Sound before the pluck that is of use; with less, less of what rang on is taken away.
    static constexpr Seconds kBefore{0.75};
    static constexpr int kLooks = 4;

    /// **Range** rate 8 to 192 kHz.
    explicit KeyRecogniser(SampleRate rate);
    ~KeyRecogniser();
    KeyRecogniser(KeyRecogniser&&) noexcept;
    KeyRecogniser& operator=(KeyRecogniser&&) noexcept;
    KeyRecogniser(const KeyRecogniser&) = delete;
    KeyRecogniser& operator=(const KeyRecogniser&) = delete;

    /// The strings that may have been plucked. **Range** every target 15 to 6000 Hz.
    void setTarget(const AnalysisTarget& target);

    /// This string is the likeliest to be plucked next: the other of a pair that was asked for and begun. Its partials
    /// that the first one shares ring already, so that it would lose against a string of which fewer do. Nothing: none is.
    void expect(std::optional<StringId> string);

    /// Sound needed after the pluck for look 0, 1 … kLooks−1: 0.10, 0.15, 0.30 and 0.45 s.
    [[nodiscard]] static Seconds lookAfter(int look);

    /// Looks at the sound around a pluck. **Range** look 0 … kLooks−1; sound holds at least lookAfter(look)
    /// after index `pluck`; `steadyFrom` ≤ pluck: from there on nothing else was plucked.
    [[nodiscard]] KeyVerdict
    look(int look, std::span<const float> sound, std::size_t pluck, std::size_t steadyFrom = 0);

    /// The two strings of different keys that were plucked together and make an interval tuned by beats, the lower
    /// first; nothing where one string explains the sound. The upper one must have partials that the lower one does
    /// not share: octaves, twelfths and fifteenths are not told from one string.
    /// **Range** as look().
    [[nodiscard]] std::optional<std::array<KeyVerdict, 2>> lookForTwo(int look,
                                                                      std::span<const float> sound,
                                                                      std::size_t pluck,
                                                                      std::size_t steadyFrom = 0);

private:
    struct Impl;
    std::unique_ptr<Impl> impl_;
};

/// All notes of a chromatic compass in equal temperament, as strings of one 8′ choir: for a sound of which
/// nothing is known. Course i is MIDI note lowestMidi + i. **Range** a4 300 to 600 Hz; 12 ≤ lowest ≤ highest ≤ 108.
[[nodiscard]] AnalysisTarget chromaticTarget(Hertz a4, int lowestMidi, int highestMidi);

} // namespace quillbench
