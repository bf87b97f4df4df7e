#pragma once

#include "core/analysis/pair_heard.hpp"
#include "core/instrument/instrument.hpp"
#include "core/support/fixed_vector.hpp"
#include "core/units/beat_rate.hpp"
#include "core/units/cents.hpp"
#include "core/units/decibel.hpp"
#include "core/units/frames.hpp"
#include "core/units/hertz.hpp"

#include <cstdint>
#include <optional>

namespace quillbench {

/// How much a reading may be trusted; as the command line's `status`.
enum class Standing { Ok, Weak, Nothing };

/// What a reading wants to say besides its number. Bits of StringReading::warnings.
enum class Warning : std::uint32_t {
    Clipped = 1U << 0U,
    Hum = 1U << 1U,
    Noisy = 1U << 2U,
    TwoStrings = 1U << 3U, ///< a register was left on
    NotTheStringAsked = 1U << 4U,
    RingingTwin = 1U << 5U, ///< a silenced string rings along: felt cures it
    AutomaticGain = 1U << 6U,
    Gated = 1U << 7U, ///< noise suppression or gating of the microphone
    TooShort = 1U << 8U,
    FalseBeat = 1U << 9U,
    OffTarget = 1U << 10U, ///< found near the edge of the range looked at
};

/// One partial: its mean frequency from 0.10 s after the pluck to 2.5 s, or until it has fallen 40 dB or into the noise,
/// as far as it was not heard foretold.
struct PartialReading {
    int number = 0; ///< 1, 2, …
    Hertz frequency;
    double frequencyUncertainty = 0; ///< Hz, one standard deviation
    Decibel level;                   ///< at the pluck
    Seconds decay60{0};              ///< time to fall 60 dB; 0 where unknown
    bool used = false;
};

/// The pitch of one string over one window: the *sustain pitch* f0·√(1+B) (stiff comb fitted to the mean
/// frequency of each partial from 0.10 s to 2.5 s after the pluck), predicted from what was heard so far.
struct StringReading {
    Standing standing = Standing::Nothing;
    StringId string;  ///< which expected string it was
    FrameIndex pluck; ///< the string leaves the plectrum
    Seconds used{0};  ///< how much after the pluck was heard
    Hertz target;
    Hertz pitch;
    double pitchUncertainty = 0; ///< Hz, one standard deviation, without the clock's
    Cents deviation;             ///< of pitch from target
    Cents deviationUncertainty;
    Cents startSharpness; ///< how much sharper it started than it sustains
    Cents startSharpnessUncertainty;
    Hertz fundamental;        ///< f0 of the stiff comb
    double inharmonicity = 0; ///< B
    double inharmonicityUncertainty = 0;
    std::optional<BeatRate> ownBeat; ///< beat of this string alone (false beat), at partial 1
    std::uint32_t warnings = 0;
    FixedVector<PartialReading, 40> partials;

    [[nodiscard]] bool has(Warning warning) const {
        return (warnings & static_cast<std::uint32_t>(warning)) != 0;
    }
};

/// What the microphone path does to the sound, learned over the last seconds.
struct MicrophoneState {
    Decibel level; ///< RMS of the last 50 ms
    Decibel peak;
    Decibel noiseFloor;
    bool clipped = false;
    bool automaticGain = false;
    bool gated = false;
};

/// What the analysis knows at one instant. Fixed size, immutable, no pointers.
struct AnalysisSnapshot {
    std::uint64_t sequence = 0;         ///< counts up by one with every snapshot
    FrameIndex upTo;                    ///< the sound before this frame is in it
    bool sounding = false;              ///< a plucked string is heard now
    std::uint64_t pluckNumber = 0;      ///< counts plucks; 0 before the first
    std::optional<FrameIndex> pluck;    ///< when the last pluck was; none before the first
    std::optional<StringId> recognised; ///< which string the last pluck was; none: not known (yet)
    std::optional<StringReading> reading; ///< of the last pluck, growing
    /// The last word on a pluck, in exactly one snapshot: it ended with the next pluck, by the damper,
    /// or after 2.5 s. Standing Nothing where the pluck gave no reading; its warnings say why.
    std::optional<StringReading> finished;
    std::optional<PairHeard> pair; ///< two strings that sound together, or sounded last
    /// The last word on a pair, in exactly one snapshot.
    std::optional<PairReading> finishedPair;
    MicrophoneState microphone;
    std::uint64_t gaps = 0; ///< how often sound was lost since the start
};

} // namespace quillbench
