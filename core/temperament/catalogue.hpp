#pragma once

#include "core/temperament/temperament.hpp"

#include <string_view>
#include <vector>

namespace quillbench {

/// The historical temperaments, each defined by exact fractions of a comma or by ratios. Built on first use.
/// **Thread** any. **Source** of each: its description; collected from [Barbour1951], [Ratte1991] and the
/// texts named there. **Accuracy** held by the test "the catalogue agrees with its reference table".
[[nodiscard]] const std::vector<Temperament>& catalogue();

/// By id ("werckmeister-3") or short name ("W3"), in either case; null where there is none.
[[nodiscard]] const Temperament* findTemperament(std::string_view id);

/// The short name of a temperament of the catalogue ("W3"); empty for any other.
[[nodiscard]] std::string_view shortNameOf(const Temperament& temperament);

} // namespace quillbench
