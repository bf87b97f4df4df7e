#pragma once

#include "core/support/result.hpp"
#include "core/temperament/temperament.hpp"

#include <CLI/CLI.hpp>

#include <optional>
#include <string>
#include <utility>

namespace quillbench::cli {

/// What on the command line makes a tuned scale.
struct ScaleOptions {
    std::string temperament; ///< id, short name or file
    std::optional<double> a4Hz;
    std::string standard; ///< "C5=523.25" instead of a4Hz
    std::string root;     ///< empty: as the temperament has it
    std::string notes;    ///< "Ab..D#"; empty: its own
    bool helmholtz = false;
};

void addScaleOptions(CLI::App& command, ScaleOptions& options);

/// **Errors** BadArgument or UnreadableInput, one line that says what is wrong and how to mend it.
[[nodiscard]] Result<TunedScale> scaleOf(const ScaleOptions& options);

/// "F1..F6" → two notes, the lower one first. **Errors** BadArgument.
[[nodiscard]] Result<std::pair<Note, Note>>
keysOf(const std::string& option, const std::string& text, bool helmholtz);

/// A note for people in the notation that was asked for, filled with spaces to six columns.
[[nodiscard]] std::string shown(const Note& note, bool helmholtz);

/// Prints the line and gives the exit code that belongs to it.
[[nodiscard]] int refuse(const char* command, const Error& error);

} // namespace quillbench::cli
