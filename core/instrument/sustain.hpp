#pragma once

#include "core/units/frames.hpp"
#include "core/units/hertz.hpp"

namespace quillbench {

/// How fast an ordinary plucked string dies away, where its vibration drives the soundboard: falls by 60 dB in a second,
/// of one partial of the string. Higher strings and higher partials are shorter; single strings lie within a factor of
/// two. **Range** both above 0 Hz. **Source** the recordings named in DEVELOPERS.md "Virtual instrument", fitted by eye,
/// within the ranges of [Valimaki2004].
[[nodiscard]] double sixtyDecibelsPerSecond(Hertz string, Hertz partial);

/// How long a partial is listened to: until it is 40 dB softer than it was plucked. **Range** as above.
[[nodiscard]] Seconds heardFor(Hertz string, Hertz partial);

} // namespace quillbench
