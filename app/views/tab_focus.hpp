#pragma once

class QTabWidget;

namespace quillbench {

/// Who goes to a sheet by its key or a click has the keyboard there, not where it was before: in its first control, or on
/// the tabs where it has none. While the tabs themselves have it, the arrow keys go on from sheet to sheet.
void leadFocusWith(QTabWidget* tabs);

} // namespace quillbench
