#pragma once

#include "core/analysis/snapshot.hpp"
#include "core/workflow/session.hpp"

#include <string>
#include <vector>

namespace quillbench {

/// Names of what a reading warns of, as files and the command line have them: "two strings".
[[nodiscard]] std::vector<std::string> warningNames(const StringReading& reading);

/// "settled", …
[[nodiscard]] std::string stepStateName(StepState state);

} // namespace quillbench
