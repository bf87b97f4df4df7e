#pragma once

#include "core/units/frames.hpp"

#include <span>

namespace quillbench {

/// How long this player takes, as logged.
struct PlayerSpeed {
    Seconds toTune{45}; ///< from the first pluck of a string that has to move to the next string
    Seconds toHear{3};  ///< a string that is only played
};

/// From the times that strings took: their median, drawn towards an ordinary player's by as much as five strings weigh.
/// **Range** seconds > 0; empty: the ordinary player.
[[nodiscard]] PlayerSpeed speedFrom(std::span<const Seconds> perString);

} // namespace quillbench
