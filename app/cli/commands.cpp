#include "app/cli/command.hpp"
#include "app/version.hpp"

#include <string>

namespace quillbench::cli {

namespace {

constexpr AddCommand kCommands[] = {
    addTemperament,
    addBearings,
    addString,
    addSimulate,
    addMeasure,
    addBeats,
    addPlucks,
    addDamping,
    addLog,
    addDemo,
    addDevices,
};

} // namespace

void addAll(CLI::App& app, int& exitCode) {
    app.description(
        "Quillbench on the command line: pitch, beats, temperaments and strings of plucked "
        "keyboard instruments");
    app.name(kProgram);
    app.set_version_flag("--version", kVersion, "Print the version and exit");
    app.require_subcommand(0, 1);
    for (const AddCommand add : kCommands) {
        add(app, exitCode);
    }
    app.footer("'quillbench-cli COMMAND --help' tells what a command takes, with examples.");
}

void addExamples(CLI::App& command, std::initializer_list<const char*> arguments) {
    std::string text = "Examples:";
    for (const char* one : arguments) {
        text += std::string("\n  ") + kProgram + ' ' + one;
    }
    command.footer(text);
}

} // namespace quillbench::cli
