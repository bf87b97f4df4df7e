#pragma once

#include "core/temperament/transposing.hpp"

#include <QString>

namespace quillbench {

/// "415.0 Hz, as built, tuned here; widest thirds F♯–A♯ +21.5, C♯–E♯ +21.5 cents": where the keyboard may stand and how
/// the tuning sounds there. `here`: A and the temperament hold at this position.
[[nodiscard]] QString positionText(const PositionReport& report, bool here);

} // namespace quillbench
