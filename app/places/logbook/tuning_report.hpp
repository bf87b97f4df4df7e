#pragma once

#include "app/places/logbook/logbook_pictures.hpp"
#include "app/print/report.hpp"

namespace quillbench {

/// A session on paper: with what it was tuned, string by string before and after, by ear or meter, how far each has
/// moved since, what was written down.
[[nodiscard]] Report tuningReport(const SessionLine& session, const OpenedSession& opened);

} // namespace quillbench
