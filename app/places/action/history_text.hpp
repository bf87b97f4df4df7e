#pragma once

#include "app/places/action/action_model.hpp"
#include "app/places/action/voice_store.hpp"

#include <QString>
#include <vector>

namespace quillbench {

/// The register that is on, alone, against the others of this sitting, against its last kept pass of another day, and
/// what its plectra lose over months; empty where there is nothing to compare. `kept` in the order of their days.
[[nodiscard]] QString historyText(const ActionModel& model,
                                  const EvennessReport& now,
                                  const std::vector<StoredPass>& kept,
                                  const QDate& today);

} // namespace quillbench
