#pragma once

#include "core/pitch/note.hpp"
#include "core/units/beat_rate.hpp"
#include "core/units/cents.hpp"
#include "core/units/hertz.hpp"

#include <optional>
#include <span>
#include <string_view>

namespace quillbench {

enum class IntervalKind {
    Unison,
    MinorThird,
    MajorThird,
    Fourth,
    Fifth,
    MinorSixth,
    MajorSixth,
    Octave,
    MinorTenth,
    Tenth,
    Twelfth,
    Fifteenth,
    Seventeenth,
    Nineteenth,
};

/// The lowest partials that meet: partial ofLower of the lower string and ofUpper of the upper one. The pure
/// ratio is ofLower : ofUpper.
struct PartialPair {
    int ofLower = 1;
    int ofUpper = 1;

    bool operator==(const PartialPair&) const = default;
};

/// An interval as it is tuned: by the beat of its lowest pair of partials. **Source** [Houtsma1987] demonstration
/// 32; pairs as in [Capleton2007].
struct Interval {
    IntervalKind kind = IntervalKind::Unison;
    std::string_view id;   ///< "major-third"
    std::string_view name; ///< "major third"
    int semitones = 0;     ///< on a keyboard
    int fifths = 0;        ///< up the chain of fifths, as spelled
    PartialPair pair;

    [[nodiscard]] Cents pureSize() const;
};

/// All of them, narrow to wide.
[[nodiscard]] std::span<const Interval> intervals();

[[nodiscard]] const Interval& intervalOf(IntervalKind kind);

/// By id ("fifth", "minor-third"); null where there is none.
[[nodiscard]] const Interval* findInterval(std::string_view id);

/// The interval that two keys make, by counting semitones, however they are spelled (G♯–E♭ is played as a
/// fifth); empty for seconds, sevenths and whatever is not in the list or not upwards.
[[nodiscard]] std::optional<IntervalKind> intervalOfKeys(const Note& lower, const Note& upper);

/// Like intervalOfKeys, and spelled so (G♯–E♭ is none).
[[nodiscard]] std::optional<IntervalKind> intervalAsSpelled(const Note& lower, const Note& upper);

/// The note an interval above, as spelled; empty where it leaves F♭♭ … B♯♯.
[[nodiscard]] std::optional<Note> noteAbove(const Note& lower, IntervalKind kind);

/// Beats of the pair: ofUpper·upper − ofLower·lower. Positive where the upper string is wide of pure. The strings are
/// taken as without stiffness. **Range** both > 0.
[[nodiscard]] BeatRate beatRate(PartialPair pair, Hertz lower, Hertz upper);

[[nodiscard]] BeatRate beatRate(IntervalKind kind, Hertz lower, Hertz upper);

/// How far `upper` is above the pure interval over `lower`; negative is narrow. **Range** both > 0.
[[nodiscard]] Cents widthFromPure(IntervalKind kind, Hertz lower, Hertz upper);

/// The upper string that beats so with `lower`. **Range** lower > 0; the result is > 0 for beats > −ofLower·lower.
[[nodiscard]] Hertz upperAtBeat(IntervalKind kind, Hertz lower, BeatRate beat);

/// The lower string that beats so with `upper`. **Range** as upperAtBeat.
[[nodiscard]] Hertz lowerAtBeat(IntervalKind kind, Hertz upper, BeatRate beat);

} // namespace quillbench
