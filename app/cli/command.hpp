#pragma once

#include <CLI/CLI.hpp>

#include <initializer_list>

namespace quillbench::cli {

/// Exit codes of the command line (its contract with scripts).
inline constexpr int kDone = 0;
inline constexpr int kWrongCommandLine = 2;
inline constexpr int kUnreadableInput = 3;
inline constexpr int kNothingToMeasure = 4;

/// What people type.
inline constexpr const char* kProgram = "quillbench-cli";

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

/// Names the program and adds every subcommand, in the order in which --help lists them.
void addAll(CLI::App& app, int& exitCode);

/// What --help of a command ends with, and the manual shows: arguments that do something sensible as they stand, given
/// the files that the examples before them in the manual make or that the person has.
void addExamples(CLI::App& command, std::initializer_list<const char*> arguments);

} // namespace quillbench::cli
