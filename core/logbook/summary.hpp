#pragma once

#include "core/logbook/records.hpp"

#include <optional>
#include <string>
#include <vector>

namespace quillbench {

/// One session for a list.
struct SessionSummary {
    SessionRecord session;
    std::string instrument;  ///< its key
    std::string name;        ///< as it was called then
    std::size_t settled = 0; ///< steps whose newest state that is
    std::size_t kept = 0;    ///< accepted by the player as they are
    std::size_t skipped = 0;
    std::optional<std::string> ended; ///< how; nothing while it may be gone on with
};

/// The sessions in order. Events are not needed.
[[nodiscard]] std::vector<SessionSummary> summarise(const LogbookContents& contents);

/// A reading that holds: the newest of its step, and the step was not opened again since.
struct HoldingReading {
    ReadingRecord reading;
    StringRecord string;
    std::string state; ///< "settled" or "kept"
};

/// Those of one session, in the order in which they were kept. Events are not needed.
[[nodiscard]] std::vector<HoldingReading> holdingReadings(const LogbookContents& contents,
                                                          RowNumber session);

} // namespace quillbench
