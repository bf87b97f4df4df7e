#pragma once

#include "core/instrument/instrument.hpp"
#include "core/pitch/interval.hpp"
#include "core/pitch/note.hpp"
#include "core/units/beat_rate.hpp"
#include "core/units/cents.hpp"
#include "core/units/hertz.hpp"
#include "core/workflow/drawing.hpp"

#include <cstddef>
#include <functional>
#include <optional>
#include <vector>

namespace quillbench {

/// What must be known of one string before its pin is touched.
struct StringFacts {
    Hertz target;                         ///< of partial 1; > 0
    double inharmonicity = 0;             ///< B; 0 where unknown
    Cents marginLow{1200.0};              ///< lower bound of the margin to breaking, at the target
    std::optional<double> centsPerDegree; ///< of pin turn, where the pin's diameter is known
};

using FactsOfString = std::function<StringFacts(StringId)>;

/// The part of the session that a step belongs to.
enum class Phase {
    RunThrough,  ///< every key once on each register
    WarmUp,      ///< three sentinel notes: does the ground stand still?
    FirstLook,   ///< a dozen keys of each choir: where does it stand?
    RoughPass,   ///< a choir far out is brought near first
    Bearings,    ///< the octave in the middle
    Outward,     ///< the same choir by octaves
    Unison,      ///< another 8′
    FourFoot,    ///< the 4′
    SixteenFoot, ///< the 16′
    Recheck,     ///< the 4′ and the bearings once more
};

enum class StepWork {
    Sweep,     ///< several strings are played once each; no pin is touched
    SetForNow, ///< a string is brought near or to a place that a later step corrects
    Set,       ///< a string is brought to where it stays; one such step a string
    Check,     ///< nothing is set; an interval is heard with the hammer down
};

/// The string that another one is tuned against by ear, and what the two shall do together.
struct PairAim {
    StringId against;
    std::size_t key = 0; ///< of `against`
    Note note;           ///< that key's name
    IntervalKind interval = IntervalKind::Unison;
    bool tunedIsUpper = true; ///< the string of the step is the upper of the two
    PartialPair pair;         ///< the partials to listen to
    BeatRate beat;            ///< wanted there; + wide
    BeatRate tolerance;       ///< of the beat, from the step's tolerance in cents
    Cents width;              ///< wanted, of the upper partial over the lower
    Cents
        offset; ///< stiffness: where the tuned string belongs when `against` is where it was asked to be, from its
    ///< own target
    bool measured = false; ///< also by meter the aim is where `against` was found, not a number
};

/// Two intervals heard with the hammer down, that feel alike when the step's octave is pure ([Capleton2007]).
struct IntervalCheck {
    StringId lower;
    StringId upper;
    IntervalKind interval = IntervalKind::Fifth;
    BeatRate beat; ///< expected; + wide
};

/// One thing to do.
struct TuningStep {
    StringId string;     ///< set, or the lower of those checked; the first of a sweep
    std::size_t key = 0; ///< index into Compass::keys
    Note note;           ///< the key's name; a 4′ string sounds an octave above it
    StringFacts facts;
    Cents tolerance{1.0};
    Cents ceiling{
        10.0}; ///< the string is never asked for, nor may stand, higher than this above target
    Phase phase = Phase::Bearings;
    StepWork work = StepWork::Set;
    Drawing alone;                     ///< to hear the string by itself
    Drawing together;                  ///< to hear it with the other of `pair`
    std::optional<PairAim> pair;       ///< by ear against this one
    std::optional<PairAim> alike;      ///< a second interval that shall feel like the first
    std::vector<IntervalCheck> checks; ///< once it is set
    std::vector<StringId> sweep;       ///< of a Sweep, in playing order; empty otherwise
    std::vector<std::size_t> needs;    ///< steps before it on whose strings it relies

    [[nodiscard]] bool setsString() const {
        return work == StepWork::Set || work == StepWork::SetForNow;
    }
};

/// How a string comes to its target.
enum class Approach {
    SettleDown, ///< a little above, then down into it
    FromBelow,  ///< slackened first where it is sharp, then up to it
};

/// The steps in the order in which they are asked for.
struct TuningPlan {
    std::size_t choir = 0; ///< the reference
    std::vector<TuningStep> steps;
    Approach approach = Approach::SettleDown;

    /// The step that sets this string for good.
    [[nodiscard]] std::optional<std::size_t> stepOf(StringId string) const;
};

/// How far above its target a string may be taken: the lesser of 10 cents and a quarter of the lower bound of its
/// margin to breaking; never negative. **Source** common practice, no source.
[[nodiscard]] Cents ceilingAboveTarget(Cents marginLow);

/// How much sharper partial n of a stiff string lies than n times its partial 1. **Range** n ≥ 1, B ≥ 0.
/// **Source** f_n = n·f0·√(1 + B·n²), [Fletcher1964].
[[nodiscard]] Cents partialStretch(int n, double inharmonicity);

/// The pair that a step listens to: `tuned` against `against`, both with their targets; `beat` as without
/// stiffness. **Range** both targets > 0; tolerance > 0.
[[nodiscard]] PairAim pairAim(const StringFacts& tuned,
                              const StringFacts& against,
                              IntervalKind interval,
                              bool tunedIsUpper,
                              BeatRate beat,
                              Cents tolerance);

} // namespace quillbench
