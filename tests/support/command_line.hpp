#pragma once

#include "tests/support/temporary_folder.hpp"

#include <catch2/catch.hpp>
#include <sys/wait.h>

#include <cstdlib>
#include <fstream>
#include <sstream>
#include <string>

namespace quillbench::test {

/// What a run of quillbench-cli left behind.
struct CommandLineRun {
    int exitCode = -1;
    std::string out;
    std::string err;
};

/// Runs the built quillbench-cli (QUILLBENCH_CLI) through the shell with `arguments` as they would be typed.
inline CommandLineRun runCommandLine(const std::string& arguments) {
    const TemporaryFolder folder;
    const auto slurp = [&](const char* name) {
        std::ifstream in(folder.path() / name, std::ios::binary);
        std::ostringstream text;
        text << in.rdbuf();
        return text.str();
    };
    const std::string command = std::string("'") + QUILLBENCH_CLI + "' " + arguments + " >'" +
                                (folder.path() / "out").string() + "' 2>'" +
                                (folder.path() / "err").string() + "' </dev/null";
    // NOLINTNEXTLINE(concurrency-mt-unsafe): tests run one at a time in their process
    const int status = std::system(command.c_str());
    REQUIRE(WIFEXITED(status));
    return {WEXITSTATUS(status), slurp("out"), slurp("err")};
}

} // namespace quillbench::test
