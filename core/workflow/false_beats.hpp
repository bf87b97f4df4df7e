#pragma once

#include "core/instrument/instrument.hpp"
#include "core/units/beat_rate.hpp"
#include "core/workflow/session_event.hpp"

#include <cstddef>
#include <span>
#include <vector>

namespace quillbench {

/// A string that was heard to beat by itself.
struct HeardFalseBeat {
    StringId string;
    BeatRate rate;          ///< of its partial 1, median of the plucks that told
    std::size_t plucks = 0; ///< that told of a beat
    std::size_t of = 0;     ///< sure plucks that were heard for a second at least
};

/// Plucks that must tell of it before a string is said to beat by itself.
inline constexpr std::size_t kPlucksThatName = 3;

/// Whether a reading is sure and long enough to tell a beat of the string's own, or that there is none.
[[nodiscard]] bool tellsOfOwnBeat(const StringReading& reading);

/// The strings that beat by themselves in most of their sure, long plucks: at least three of them. A turned pin, a room or
/// a neighbour that rings along may pass for a beat once. In the order of choirs and keys.
[[nodiscard]] std::vector<HeardFalseBeat> falseBeatsHeard(std::span<const SessionEvent> events);

} // namespace quillbench
