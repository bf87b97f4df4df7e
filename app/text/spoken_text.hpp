#pragma once

#include <QString>

namespace quillbench {

/// A sentence as a voice should read it: signs of the page in words ("8′" is "8 foot", "F♯3" is "F sharp 3").
[[nodiscard]] QString spokenText(QString text);

} // namespace quillbench
