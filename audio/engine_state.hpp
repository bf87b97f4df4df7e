#pragma once

#include "core/support/result.hpp"

#include <optional>

namespace quillbench {

/// Where a source of sound, a stream or the engine stands.
enum class EnginePhase {
    Idle,       ///< not started, or stopped on request
    Starting,   ///< asked for; no sound has come yet
    Running,    ///< sound comes
    Silent,     ///< the device is there, but nothing has come for a moment
    Lost,       ///< the device is gone or does not answer; it is tried again every second
    Recovering, ///< it was lost, has been opened again, and no sound has come yet
    Ended,      ///< a recording was read to its end
    Failed,     ///< it cannot work as asked for; the person has to choose something else
};

/// A value that may be read at any time. `error` says in one line what is wrong and what helps; set for Silent,
/// Lost, Recovering and Failed.
struct EngineState {
    EnginePhase phase = EnginePhase::Idle;
    std::optional<Error> error;
    bool neverThere = false; ///< of a Lost device: it has not been open since it was asked for
};

} // namespace quillbench
