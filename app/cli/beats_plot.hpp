#pragma once

#include "app/cli/beats_report.hpp"

#include <string>

namespace quillbench::cli {

/// The breath of a pair as a picture (SVG): loudness of each two partials that meet, crests of the pair that the ear
/// follows and where the wanted beat would have them, and what each pair says of the beat.
/// **Range** a reading that is found, with its traces.
[[nodiscard]] std::string beatsPlot(const BeatsQuestion& question, const BeatsLine& line);

} // namespace quillbench::cli
