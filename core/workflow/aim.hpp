#pragma once

#include "core/workflow/session.hpp"

#include <optional>

namespace quillbench::detail {

/// The partial of a step's string that meets one of the other string, where the step is aimed at what was found there.
[[nodiscard]] std::optional<int> ownPartial(const TuningStep& step);

/// The other string's partial that it meets.
[[nodiscard]] int otherPartial(const PairAim& pair);

/// Where that partial of a string was heard; nothing where it was not.
[[nodiscard]] std::optional<PartialOffsets::Offset>
offsetOf(const Session& session, StringId string, int partial);

/// Whether the other string of an octave is wanted alone before the two are heard together.
struct ReferenceWish {
    bool first = false; ///< that is not known of it, or it beats
    bool beats = false; ///< once more: it seems to beat by itself
};

[[nodiscard]] ReferenceWish referenceWish(const Session& session, std::size_t step);

/// The string was heard, and is not to be set any more.
[[nodiscard]] bool staysWhereHeard(const Session& session, StringId string);

} // namespace quillbench::detail
