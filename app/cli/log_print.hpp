#pragma once

#include "app/cli/log_commands.hpp"

#include <nlohmann/json.hpp>

#include <optional>
#include <string>

namespace quillbench::cli {

using LogJson = nlohmann::ordered_json;

/// The fields that every JSON line of the logbook begins with.
[[nodiscard]] LogJson headed(const char* kind, const char* status);

/// One JSON object on a line of standard output.
void printLine(const LogJson& json);

/// A text of a person on one line of a table: what steers a terminal is left out.
[[nodiscard]] std::string tamed(const std::string& text);

/// Everything but the events. Without a value the exit code is set.
[[nodiscard]] std::optional<LogbookContents> looked(const LogOptions& options, int& exitCode);

/// When practice was done and how often, for the list of sessions. Null without any.
[[nodiscard]] LogJson practiseSummary(const LogbookContents& contents);
void printPractiseSummary(const LogbookContents& contents);

/// Every exercise that was practised, in the order of the logbook.
void printPractised(const LogbookContents& contents);
[[nodiscard]] LogJson practisedJson(const LogbookContents& contents);

} // namespace quillbench::cli
