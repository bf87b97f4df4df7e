#pragma once

#include "core/pitch/interval.hpp"
#include "core/support/result.hpp"
#include "core/temperament/temperament.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace quillbench {

/// What a step of a bearing plan asks for.
enum class StepKind {
    Tune,      ///< set a note for good
    Temporary, ///< set a note for now; a later step corrects it
    Share,     ///< set a note so that two intervals feel alike
    Check,     ///< nothing is set; hear whether it comes out
};

/// The second interval of a Share.
struct SharedInterval {
    Note with;
    IntervalKind interval = IntervalKind::Unison;
    BeatRate beat;
};

/// One step. `beat` is what the interval of `tune` and `against` shall do, + wide, whichever of the two is the
/// upper note.
struct BearingStep {
    StepKind kind = StepKind::Tune;
    Note tune;
    Note against;              ///< for a step from the pitch standard, the note that it fixes
    bool fromStandard = false; ///< `against` is a fork or a tone, not a string
    IntervalKind interval = IntervalKind::Unison;
    BeatRate beat;
    std::optional<SharedInterval> alike; ///< present for Share and only then
    Hertz pitch;                         ///< where `tune` ends up in this step
};

/// Where the bearings are laid: an octave and a fifth.
enum class BearingRange { F3ToC5, C3ToG4 };

/// An order in which a temperament is set by ear. No step relies on a note that is not set yet; when every step is
/// followed exactly, the notes are those of the temperament.
struct BearingPlan {
    std::string id; ///< "computed", or the id of a published plan
    std::string name;
    std::string source; ///< where it was published, or how it was made
    std::vector<BearingStep> steps;
};

/// Finds the plan that asks for the least counting: beatless fifths and thirds first, fifths shared between set
/// notes, then counted beats; sets the thirteen notes of the lowest octave of the range (split sharps too), checks
/// as soon as both notes are set. Nothing that beats faster than 10 a second is a tuning step, unless a note of
/// an outlandish temperament can be reached no other way.
/// The order is a cheapest path through the sets of notes already tuned [Dijkstra1959]; the costs follow common
/// practice (no source). **Thread** any; allocates.
[[nodiscard]] BearingPlan computedPlan(const TunedScale& scale,
                                       BearingRange range = BearingRange::F3ToC5);

/// A published plan that fits a temperament.
struct PublishedPlan {
    std::string_view id;
    std::string_view name;
    std::string_view source;
};

[[nodiscard]] std::vector<PublishedPlan> publishedPlansFor(const Temperament& temperament);

/// A published plan with its beats worked out for the scale. **Errors** BadArgument, naming the plans there are.
[[nodiscard]] Result<BearingPlan> publishedPlan(const TunedScale& scale, std::string_view id);

/// The step in one plain English sentence.
[[nodiscard]] std::string inWords(const BearingStep& step);

/// "tune", "temporary", "share", "check".
[[nodiscard]] std::string_view nameOf(StepKind kind);

} // namespace quillbench
