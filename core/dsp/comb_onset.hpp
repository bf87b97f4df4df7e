#pragma once

#include "core/dsp/string_listener.hpp"
#include "core/units/frames.hpp"

#include <optional>
#include <span>

namespace quillbench {

/// The instant at or after `from` where the partials of the asked string rise most, for recordings whose noise
/// hides the attack: the mean logarithm of their powers over 0.15 s after, against 0.2 s before.
/// **Accuracy** about 20 ms. **Range** recordings up to ten minutes; later sound is not searched.
[[nodiscard]] std::optional<FrameIndex> loudestRise(const ListeningFor& what,
                                                    std::span<const float> samples,
                                                    SampleRate rate,
                                                    FrameIndex from);

} // namespace quillbench
