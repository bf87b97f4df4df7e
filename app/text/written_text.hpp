#pragma once

#include <QString>

namespace quillbench {

/// What somebody wrote, for a tool tip: shown as it is written where Qt would take it for HTML, and cut after 500
/// characters.
[[nodiscard]] QString tipText(const QString& text);

/// The same for a cell of a table: on one line, cut after 2000 characters.
[[nodiscard]] QString cellText(const QString& text);

} // namespace quillbench
