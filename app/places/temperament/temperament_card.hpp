#pragma once

#include "app/places/temperament/temperament_model.hpp"
#include "app/print/pages.hpp"

namespace quillbench {

/// A card of A5, upright, of one page: name and source, the circle of fifths, cents and hertz of the notes, the
/// bearing plan with its beats at this pitch. The model has to live until it is printed.
[[nodiscard]] Printout temperamentCard(const TemperamentModel& model);

} // namespace quillbench
