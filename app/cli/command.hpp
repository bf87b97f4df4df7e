#pragma once

#include <CLI/CLI.hpp>

namespace quillbench::cli {

/// Exit codes of the command line (its contract with scripts).
inline constexpr int kDone = 0;
inline constexpr int kWrongCommandLine = 2;
inline constexpr int kUnreadableInput = 3;
inline constexpr int kNothingToMeasure = 4;

/// Each subcommand lives in a file of its own and adds itself to the parser; when it was asked for, its
/// callback does the work and leaves the exit code in `exitCode`.
using AddCommand = void (*)(CLI::App& app, int& exitCode);

void addMeasure(CLI::App& app, int& exitCode);
void addBeats(CLI::App& app, int& exitCode);
void addPlucks(CLI::App& app, int& exitCode);
void addDamping(CLI::App& app, int& exitCode);
void addDevices(CLI::App& app, int& exitCode);
void addSimulate(CLI::App& app, int& exitCode);
void addDemo(CLI::App& app, int& exitCode);
void addString(CLI::App& app, int& exitCode);
void addTemperament(CLI::App& app, int& exitCode);
void addLog(CLI::App& app, int& exitCode);
void addBearings(CLI::App& app, int& exitCode);

} // namespace quillbench::cli
