#pragma once

#include "core/dsp/known_string.hpp"
#include "core/support/fixed_vector.hpp"
#include "core/units/beat_rate.hpp"
#include "core/units/cents.hpp"
#include "core/units/frames.hpp"
#include "core/units/hertz.hpp"

#include <optional>
#include <span>

namespace quillbench {

/// Which two strings, and how partials of theirs meet: `lowerPartial` of the lower coincides with
/// `upperPartial` of the upper (3 and 2 for a fifth, 1 and 1 for a unison).
struct PairQuestion {
    int lowerPartial = 1;
    int upperPartial = 1;
    Hertz lowerTarget;
    Hertz upperTarget;
    Cents range{60.0};
    std::optional<KnownString> lower;
    std::optional<KnownString> upper; ///< counts where nothing is known of the lower one
    Seconds from{0.06};               ///< after the later pluck: what is listened to begins there
    /// The first of the two plucks, where it is not known which string it was of.
    std::optional<Seconds> firstPluck;
};

/// Pure: slower than stillLimit, and within twice that by one standard deviation of the fit. Unknown: a unison of which no string was heard alone, or a sign
/// with less than three chances in four.
enum class BeatDirection { Wide, Narrow, Pure, Unknown };

/// One pair of partials that meet.
struct MeetingPartials {
    int lowerPartial = 1;
    int upperPartial = 1;
    Hertz frequency;
    BeatRate beat;        ///< + = wide
    double depthDb = 0.0; ///< swing of the loudness, crest to trough
};

/// The beat of two strings sounding together, at the lowest pair of partials that meet, in the mean over
/// 0.10–2.5 s after the later pluck.
struct BeatReading {
    bool found = false; ///< both strings are heard
    bool weak = false;  ///< the beat is known to no better than a tenth and stillLimit
    BeatRate beat; ///< signed, + = wide; its sign is meaningless where the direction is unknown
    double beatUncertainty = 0; ///< per second, one standard deviation
    BeatDirection direction = BeatDirection::Unknown;
    Cents width;                 ///< upper against the pure interval at that pair
    double widthUncertainty = 0; ///< cents
    FixedVector<MeetingPartials, 8> coincident;
    Hertz lowerComb; ///< f0 at rest, by all partials of the string
    Hertz upperComb;
    bool labelsSure = true; ///< it is known which line belongs to which string
    std::optional<double>
        lowerOwnBeat; ///< per second: a false beat that the lower string made alone
};

/// A beat slower than this counts as none.
inline constexpr BeatRate kStillBeat{0.05};

/// What two seconds of sound can tell from stillness: kStillBeat up to 300 Hz, the same in cents (0.29) above.
[[nodiscard]] BeatRate stillLimit(Hertz coincident);

/// Listens to a pair from the later pluck to `stop`. **Accuracy** tests/accuracy, set `pairs`.
/// **Source** two damped combs fitted jointly (CombFit); [Weinreich1977] on what coupling does to it.
[[nodiscard]] BeatReading hearPair(std::span<const double> samples,
                                   SampleRate rate,
                                   Seconds lowerPluck,
                                   Seconds upperPluck,
                                   Seconds stop,
                                   const PairQuestion& question);

} // namespace quillbench
