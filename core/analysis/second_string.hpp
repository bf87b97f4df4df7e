#pragma once

#include "core/analysis/snapshot.hpp"
#include "core/units/cents.hpp"
#include "core/units/decibel.hpp"
#include "core/units/frames.hpp"
#include "core/units/hertz.hpp"

#include <cstddef>
#include <memory>
#include <optional>
#include <span>

namespace quillbench {

/// Another string that sounds with the one that is read.
struct SecondString {
    int multiple = 1;      ///< 1: near a unison (a second 8′); 2: near the octave (a 4′)
    Cents offset;          ///< from that unison or octave
    double levelDb = 0;    ///< of its partials re the first string's next to them (median)
    double evidence = 0.0; ///< in nepers, as KeyVerdict's
};

/// Looks, once a string's reading stands, for a comb of lines that is not its own: a register left on, or a
/// silenced string that rings along because its jack lifts the damper. Closer than 4 cents to the unison or octave it
/// cannot be told from the string's own split partials, and nothing is said.
/// **Accuracy** second_string_test "a second string is found and its distance given".
/// **Real-time** allocates in the constructor only. One transform of 1 s of sound per call.
class SecondStringFinder {
public:
    /// Sound after the pluck that is looked at.
    static constexpr Seconds kAfter{1.0};

    /// **Range** rate 8 to 192 kHz.
    explicit SecondStringFinder(SampleRate rate);
    ~SecondStringFinder();
    SecondStringFinder(SecondStringFinder&&) noexcept;
    SecondStringFinder& operator=(SecondStringFinder&&) noexcept;
    SecondStringFinder(const SecondStringFinder&) = delete;
    SecondStringFinder& operator=(const SecondStringFinder&) = delete;

    /// **Range** sound begins at the pluck and holds at least kAfter; reading is that pluck's, with a pitch.
    [[nodiscard]] std::optional<SecondString> find(std::span<const float> sound,
                                                   const StringReading& reading);

private:
    struct Impl;
    std::unique_ptr<Impl> impl_;
};

} // namespace quillbench
