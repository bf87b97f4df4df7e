#pragma once

class QDialog;

namespace quillbench {

/// Makes a dialog as high as its words need at its width: a layout counts their lines at a width of its own choice.
/// **Range** least in pixels: not narrower than that. **Thread** GUI, once its layout is filled.
void fitToWords(QDialog& dialog, int least);

} // namespace quillbench
