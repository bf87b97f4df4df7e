#pragma once

#include "core/temperament/bearings.hpp"

namespace quillbench::detail {

/// The parts of which every plan is made; beats are those of the scale, between notes that are final.
[[nodiscard]] BearingStep
stepOf(const TunedScale& scale, StepKind kind, const Note& tune, const Note& against);

/// `tune` between two notes that are final.
[[nodiscard]] BearingStep
shareOf(const TunedScale& scale, const Note& tune, const Note& against, const Note& with);

/// `tune` for now, beatless to `against`.
[[nodiscard]] BearingStep
temporaryOf(const TunedScale& scale, const Note& tune, const Note& against);

/// `tune` between two temporary notes that stand at the given pitches.
[[nodiscard]] BearingStep shareBetween(const TunedScale& scale,
                                       const Note& tune,
                                       const BearingStep& lower,
                                       const BearingStep& upper);

/// The first step: `tune` from what fixes the pitch. `against` is `tune` or an octave or two from it.
[[nodiscard]] BearingStep
fromStandard(const TunedScale& scale, const Note& tune, const Note& against);

} // namespace quillbench::detail
