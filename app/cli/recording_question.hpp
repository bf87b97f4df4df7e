#pragma once

#include "app/cli/row_reader.hpp"
#include "core/support/result.hpp"
#include "core/units/hertz.hpp"

#include <CLI/CLI.hpp>

#include <optional>
#include <string>
#include <vector>

namespace quillbench::cli {

/// What every question to a recording has, as asked on the command line or in a batch row; not yet checked.
struct RecordingQuestion {
    std::string file;
    double a4 = 415.0; ///< Hz
    std::string temperament = "equal";
    double rangeCents = 60.0;
    double from = 0.0;           ///< seconds
    std::vector<double> windows; ///< seconds; empty: all that can be used
    std::optional<int> channel;  ///< counts from 0; none: the mean of all
};

/// Takes what a batch row says of these fields. **Errors** a file that is missing, or the first problem that
/// `reader` met.
[[nodiscard]] Result<void> readRow(const BatchRow& row, RowReader& reader, RecordingQuestion& into);

/// Adds the options of these fields to a subcommand, the file itself left out.
void addRecordingOptions(CLI::App& command, RecordingQuestion& question);

/// **Errors** BadArgument, one line that names the option, its value and what is allowed.
[[nodiscard]] Result<void> checkRanges(const RecordingQuestion& question);

/// A place in a recording has to be 0 to 1 000 000 s; `which` is its option. **Errors** BadArgument.
[[nodiscard]] Result<void> checkPlace(const char* which, double seconds);

/// A string's target has to be 15 to 4000 Hz; `which` is "the target" or "the lower target".
/// **Errors** BadArgument.
[[nodiscard]] Result<void> checkTarget(const char* which, Hertz target);

/// A wrong command line, in one line.
[[nodiscard]] Unexpected<Error> wrong(const std::string& text);

/// A number as a person would type it.
[[nodiscard]] std::string plain(double number);

} // namespace quillbench::cli
