#pragma once

#include "app/places/temperament/temperament_model.hpp"

namespace quillbench {

/// Writes a card of A5, upright, as vector PDF: name and source, the circle of fifths, cents and hertz of the notes, the
/// bearing plan with its beats at this pitch. **Errors** Environment where the file cannot be written.
[[nodiscard]] Result<void> writeTemperamentCard(const TemperamentModel& model, const QString& file);

} // namespace quillbench
