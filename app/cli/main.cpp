#include "app/cli/command.hpp"

#include <cstdio>
#include <exception>

namespace {

int run(int argc, char** argv) {
    using namespace quillbench;
    CLI::App app;
    int exitCode = cli::kDone;
    cli::addAll(app, exitCode);
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
