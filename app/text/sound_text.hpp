#pragma once

#include "audio/engine_state.hpp"
#include "core/analysis/snapshot.hpp"

#include <QString>

namespace quillbench {

/// Where the source of sound stands, in one line; `source` is its name for people.
[[nodiscard]] QString sourceText(const QString& source, const EngineState& state);

/// What the microphone path does to the sound, with what helps; empty where all is well.
[[nodiscard]] QString microphoneText(const MicrophoneState& microphone);

/// What a reading wants to say besides its number; empty where nothing.
[[nodiscard]] QString warningText(const StringReading& reading);

} // namespace quillbench
