#pragma once

#include "core/instrument/instrument.hpp"
#include "core/pitch/interval.hpp"
#include "core/units/cents.hpp"
#include "core/units/frames.hpp"
#include "core/units/hertz.hpp"

#include <cstddef>
#include <memory>
#include <span>

namespace quillbench {

/// Whether both strings of a pair that was asked for sound, where one stroke was heard: two keys pressed within a few
/// hundredths of a second have one beginning. A string that has partials of its own is heard by them; one that shares them
/// all (the upper of an octave) by how much louder the shared ones are than when the other string was heard alone.
/// **Accuracy** beat_listener_test "two keys asked for that go down together". **Real-time** allocates in the constructor only.
class PairEar {
public:
    /// Sound after the pluck that is looked at.
    static constexpr Seconds kAfter{0.30};

    /// **Range** rate 8 to 192 kHz.
    explicit PairEar(SampleRate rate);
    ~PairEar();
    PairEar(PairEar&&) noexcept;
    PairEar& operator=(PairEar&&) noexcept;
    PairEar(const PairEar&) = delete;
    PairEar& operator=(const PairEar&) = delete;

    /// **Range** begins at the pluck and holds at least kAfter.
    void hear(std::span<const float> sound);

    /// Where a string is expected.
    struct Place {
        Hertz pitch;                ///< of partial 1
        double inharmonicity = 0.0; ///< B; 0: not known
        Cents reach{4.0};           ///< how far off it may be
    };

    /// What was heard last was this string alone: kept for kMostKnown strings.
    void learn(StringId string, const Place& place);

    [[nodiscard]] bool knows(StringId string) const;

    /// Of what was heard last: whether both sound. `lowerString`: it may have been learned. `lowerExpected`: it was to be
    /// heard alone, and both are believed only where that is clear.
    [[nodiscard]] bool bothSound(const Place& lower,
                                 const Place& upper,
                                 PartialPair meeting,
                                 StringId lowerString,
                                 bool lowerExpected = false) const;

    static constexpr std::size_t kMostKnown = 128; ///< two choirs of five octaves

private:
    struct Impl;
    std::unique_ptr<Impl> impl_;
};

} // namespace quillbench
