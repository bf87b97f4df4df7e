#pragma once

#include "core/instrument/instrument.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace quillbench {

/// Six instruments of our own invention; makers and places do not exist, and every one says `example`.
/// Lengths and gauges are plausible for their kind, not measured on any instrument: published scalings of the
/// middle, the bass foreshortened. The first is the two-manual 8′ 8′ 4′.
/// **Source** scalings and gauges [RussellHS1] and value from memory.
[[nodiscard]] const std::vector<Instrument>& exampleInstruments();

/// One of them by its id: "double-8-8-4", "single-8-8", "single-8-4", "double-16-8-8-4", "spinet",
/// "virginal". Nothing where there is no such id.
[[nodiscard]] const Instrument* findExample(std::string_view id);

/// Their ids, for messages.
[[nodiscard]] std::string exampleIds();

} // namespace quillbench
