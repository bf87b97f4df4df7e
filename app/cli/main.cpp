#include "app/cli/command.hpp"
#include "app/version.hpp"

#include <cstdio>
#include <exception>

namespace {

// In the order in which --help lists them.
constexpr quillbench::cli::AddCommand kCommands[] = {
    quillbench::cli::addTemperament,
    quillbench::cli::addBearings,
    quillbench::cli::addString,
    quillbench::cli::addSimulate,
    quillbench::cli::addMeasure,
    quillbench::cli::addBeats,
    quillbench::cli::addPlucks,
    quillbench::cli::addDamping,
    quillbench::cli::addLog,
    quillbench::cli::addDemo,
    quillbench::cli::addDevices,
};

int run(int argc, char** argv) {
    using namespace quillbench;
    CLI::App app(
        "Quillbench on the command line: pitch, beats, temperaments and strings of plucked "
        "keyboard instruments");
    app.name("quillbench-cli");
    app.set_version_flag("--version", kVersion);
    app.require_subcommand(0, 1);
    int exitCode = cli::kDone;
    for (const cli::AddCommand add : kCommands) {
        add(app, exitCode);
    }
    try {
        app.parse(argc, argv);
    } catch (const CLI::Success& request) {
        return app.exit(request);
    } catch (const CLI::ParseError& error) {
        std::fprintf(stderr, "quillbench-cli: %s (see --help)\n", error.what());
        return cli::kWrongCommandLine;
    }
    if (app.get_subcommands().empty()) {
        std::fprintf(stderr,
                     "quillbench-cli: say what to do, such as 'measure FILE' (see --help)\n");
        return cli::kWrongCommandLine;
    }
    return exitCode;
}

} // namespace

int main(int argc, char** argv) {
    try {
        return run(argc, argv);
    } catch (const std::exception& error) {
        std::fprintf(stderr, "quillbench-cli: stopped by an internal fault: %s\n", error.what());
        return 70;
    }
}
