#pragma once

#include <CLI/CLI.hpp>

#include <string>
#include <vector>

namespace quillbench::cli {

/// What a shell offers after an option, or in place of a positional.
struct Completion {
    bool files = false;
    std::vector<std::string> words;

    [[nodiscard]] bool empty() const { return !files && words.empty(); }
};

/// One option or positional of a command.
struct OptionOutline {
    std::vector<std::string>
        names; ///< with their dashes, long ones first; a positional's name without
    bool positional = false;
    bool required = false;
    bool takesValue = false;
    std::string about;
    Completion completion;
};

/// One command: the program itself, or a subcommand.
struct CommandOutline {
    std::string path; ///< "", "measure", "log list"
    std::string about;
    std::vector<OptionOutline> options;
    std::vector<std::string> subcommands;
    std::vector<std::string> examples; ///< whole command lines
};

/// Every command of the parser, the program itself first, each with its options in the order of --help.
/// Throws std::logic_error where the table of completions names an option that no command has: it is stale.
[[nodiscard]] std::vector<CommandOutline> outlineOf(const CLI::App& app);

/// The commands as sections of a manual page, in the macros of man(7).
[[nodiscard]] std::string manualSections(const std::vector<CommandOutline>& commands);

/// What the shell reads to complete the command line. Each stands alone, without helpers of others.
[[nodiscard]] std::string bashCompletion(const std::vector<CommandOutline>& commands);
[[nodiscard]] std::string zshCompletion(const std::vector<CommandOutline>& commands);
[[nodiscard]] std::string fishCompletion(const std::vector<CommandOutline>& commands);

} // namespace quillbench::cli
