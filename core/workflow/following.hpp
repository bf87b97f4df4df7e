#pragma once

#include "core/workflow/session.hpp"

#include <optional>

namespace quillbench::detail {

/// The step that a pluck of one string belongs to: the current one, the one asked for, the first open one that sets
/// the string, or the one that set it for good.
[[nodiscard]] std::optional<std::size_t> stepOfString(const Session& session, StringId string);

/// The step that a pair belongs to, by the same order.
[[nodiscard]] std::optional<std::size_t>
stepOfPair(const Session& session, StringId lower, StringId upper);

/// The first open step among what a step relies on, at any remove, or the step itself.
[[nodiscard]] std::size_t firstOpen(const Session& session, std::size_t step);

/// How far a pair is from what a step wants of it: the deviation of the string that is tuned. **Range** the step has a
/// pair of these two strings.
[[nodiscard]] Mark markOfPair(const TuningStep& step, const HeardPair& heard);

} // namespace quillbench::detail
