#pragma once

#include "app/cli/measure_report.hpp"
#include "core/analysis/snapshot.hpp"
#include "core/dsp/string_listener.hpp"

#include <string>

namespace quillbench::cli {

/// The reading as a picture (SVG): how each partial moved against the stiff comb, the glide, the pitch with its
/// uncertainty, and which partials were left out and why. **Range** a reading that is not Standing::Nothing,
/// with the trace of the same listener.
[[nodiscard]] std::string measurePlot(const MeasureContext& context,
                                      const StringReading& reading,
                                      const ListeningTrace& trace);

} // namespace quillbench::cli
