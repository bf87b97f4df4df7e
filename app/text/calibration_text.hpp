#pragma once

#include "audio/clock_listener.hpp"

#include <QString>

namespace quillbench {

/// "+23.4 ± 0.6 ppm"; a dash before anything is known.
[[nodiscard]] QString calibrationFigure(const ClockHearing& hearing);

/// What is heard of a tone of `toneHz`, and what to do.
[[nodiscard]] QString calibrationState(const ClockHearing& hearing, double toneHz);

/// What to do before listening begins.
[[nodiscard]] QString calibrationBefore();

/// Why the virtual instrument is not to be calibrated.
[[nodiscard]] QString virtualNeedsNoCalibration();

} // namespace quillbench
