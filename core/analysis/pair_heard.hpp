#pragma once

#include "core/dsp/beat_estimator.hpp"
#include "core/instrument/instrument.hpp"
#include "core/pitch/interval.hpp"
#include "core/support/fixed_vector.hpp"
#include "core/units/beat_rate.hpp"
#include "core/units/decibel.hpp"
#include "core/units/frames.hpp"
#include "core/units/hertz.hpp"

#include <cstddef>
#include <optional>

namespace quillbench {

/// Where the knowledge of one of the strings, the lower one if it can be had, comes from; without it a beat has no direction.
enum class ReferenceKind {
    None,
    OwnPartials, ///< partials that the upper string does not share
    Kept,        ///< an earlier reading of it, widened for drift
    HeardAlone,  ///< it sounded alone just before
};

/// Partials of two strings that meet, as the ear has them.
struct EarPair {
    int lowerPartial = 1;
    int upperPartial = 1;
    Hertz frequency;
    Decibel level;      ///< the loudest of the last second, re full scale
    double ear = 0;     ///< the same as the ear weighs it, dB (A curve)
    double depthDb = 0; ///< crest against trough over the last beats
    BeatRate beat;      ///< of this pair
};

/// What is known of the beat of one pair, so long after its later pluck.
struct PairReading {
    StringId lower;
    StringId upper;
    IntervalKind interval = IntervalKind::Unison;
    FrameIndex pluck; ///< the later of the two
    Seconds used{0};
    BeatRate beat;          ///< at the lowest pair; + = wide where the direction is known
    double uncertainty = 0; ///< per second, one standard deviation
    BeatRate low;           ///< 95 % credible interval of the signed beat; of its size where
    BeatRate high;          ///< the direction is unknown
    bool still = false;     ///< slower than stillLimit, and nothing faster is likely
    BeatRate stillLimit;    ///< what can be told from stillness here, in this time
    BeatDirection direction = BeatDirection::Unknown;
    bool byMovement = false; ///< the direction was learned from how the beat moved with the pin
    ReferenceKind reference = ReferenceKind::None;
    bool joint = false;  ///< from the joint fit of both strings; else from the envelopes alone
    bool moving = false; ///< the pin was turned while it sounded: no value to keep
    bool weak = false;   ///< known to no better than a tenth and stillLimit
    std::optional<double>
        lowerOwnBeat; ///< per second: false beat that the lower string makes alone
};

/// The breath of a pair: what is drawn. Points run from the later pluck on.
struct Breath {
    Seconds firstTime{0}; ///< of level[0], after the pluck
    Seconds hop{0};       ///< from point to point
    FixedVector<float, 600>
        level; ///< loudness of the followed pair, dB re full scale; the last 10 s
    FixedVector<float, 128> crests; ///< instants, s after the pluck
    std::optional<BeatRate> live;   ///< over the last 0.7 s, size; at the lowest pair
    double liveUncertainty = 0;
    bool turning = false; ///< the beat changes: somebody turns the pin
};

/// Two strings that sound together, as they are heard at one instant.
struct PairHeard {
    StringId lower;
    StringId upper;
    IntervalKind interval = IntervalKind::Unison;
    FrameIndex pluck; ///< the later of the two
    bool sounding = false;
    std::optional<PairReading> reading; ///< none before 0.6 s or 1.2 beats
    FixedVector<EarPair, 6> pairs;
    std::size_t followed = 0; ///< which of them the ear follows, and the breath draws
    Breath breath;
};

} // namespace quillbench
