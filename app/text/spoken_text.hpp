#pragma once

#include <QString>

namespace quillbench {

/// A sentence as a voice should read it: signs of the page in words ("8′" is "8 foot", "F♯3" is "F sharp 3"). Where notes
/// are named with Helmholtz's octaves, "c′" is "c one-line", "F" is "great F", "f" is "small f"; but for names that are
/// words too, such as "a" and "es".
[[nodiscard]] QString spokenText(QString text);

} // namespace quillbench
