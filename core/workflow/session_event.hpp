#pragma once

#include "core/analysis/snapshot.hpp"
#include "core/dsp/beat_estimator.hpp"
#include "core/instrument/instrument.hpp"
#include "core/units/beat_rate.hpp"
#include "core/units/cents.hpp"
#include "core/units/frames.hpp"

#include <cstddef>
#include <string>
#include <type_traits>
#include <utility>
#include <variant>

namespace quillbench {

/// Numbers shown, or covered until the player is content.
enum class Way { ByMeter, ByEar };

/// A finished reading of one pluck. **Range** uncertainty as the reading's, the clock's included.
struct Heard {
    StringReading reading;
    Cents uncertainty;
    Seconds at{0};
};

/// A finished reading of two strings that sounded together.
struct HeardPair {
    StringId lower;
    StringId upper;
    BeatRate
        beat; ///< at the lowest pair of partials that meet; + = wide where the direction is known
    double uncertainty = 0; ///< per second, one standard deviation
    BeatDirection direction = BeatDirection::Unknown;
    bool weak = false;
    FrameIndex pluck; ///< the later one
    Seconds at{0};
    bool referenceHeard =
        false; ///< one of the two was heard alone since its pin was last worked at
};

/// A pair as a session hears it: a beat that was told from the envelopes alone counts as weak.
[[nodiscard]] HeardPair heardPair(const PairReading& reading, Seconds at);

/// The player keeps the current string as it is. Before it was heard nothing happens.
struct Accept {};

/// The player leaves the step that is asked for, or a done one that was chosen by hand, for later, and may say why.
struct Skip {
    std::string reason;
};

/// The player chooses a step by hand. **Range** step < number of steps; others are ignored.
struct GoTo {
    std::size_t step = 0;
    FrameIndex at; ///< when: plucks before it lead nowhere else any more
};

/// From now on by meter or by ear.
struct GoBy {
    Way way = Way::ByMeter;
};

/// Something about a string: "false beat", "pin loose", "replaced", or the player's own words.
struct Remark {
    StringId string;
    std::string text;
};

/// The next pluck of the current string is pressed lightly between nut and pin: it must sharpen.
struct PressTest {};

/// Every choir of choirsToRepeat() is set once more.
struct SecondPass {};

/// Takes back the last decision.
struct Undo {};

/// Readings count no more until Resume.
struct Pause {};

struct Resume {};

/// One of the above. A class of its own, so that apply(session, event) is never taken for std::apply.
struct SessionEvent {
    using What = std::variant<Heard,
                              Accept,
                              Skip,
                              GoTo,
                              Pause,
                              Resume,
                              HeardPair,
                              GoBy,
                              Remark,
                              PressTest,
                              Undo,
                              SecondPass>;

    template <typename T>

    requires(std::is_constructible_v<What, T>)
        // NOLINTNEXTLINE(google-explicit-constructor): an event of a kind is an event
        SessionEvent(T event)
        : what(std::move(event)) {}

    What what;
};

} // namespace quillbench
