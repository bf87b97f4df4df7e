#pragma once

#include "core/analysis/snapshot.hpp"
#include "core/dsp/string_listener.hpp"
#include "core/units/frames.hpp"

#include <optional>
#include <span>
#include <vector>

namespace quillbench {

/// The instants at which sound begins in a recording, in order.
[[nodiscard]] std::vector<FrameIndex> onsetsIn(std::span<const float> samples, SampleRate rate);

/// The first pluck of the asked string at or after `from`: the first onset after which its comb is heard.
[[nodiscard]] std::optional<FrameIndex> firstPluckOf(const ListeningFor& what,
                                                     std::span<const float> samples,
                                                     SampleRate rate,
                                                     std::span<const FrameIndex> onsets,
                                                     FrameIndex from);

/// A listener that has heard `window` seconds after that pluck. **Range** window > 0.
[[nodiscard]] StringListener listenAfter(FrameIndex pluck,
                                         const ListeningFor& what,
                                         std::span<const float> samples,
                                         SampleRate rate,
                                         double window);

/// One reading per window, the very readings that the live analysis gives so long after that pluck.
/// **Range** windows in seconds, > 0.
[[nodiscard]] std::vector<StringReading> readingsAfter(FrameIndex pluck,
                                                       const ListeningFor& what,
                                                       std::span<const float> samples,
                                                       SampleRate rate,
                                                       std::span<const double> windows);

} // namespace quillbench
