// Makes the manual page and the shells' completions of quillbench-cli from its own parser, so that they cannot name
// what is not there: quillbench-cli-reference bash|zsh|fish, or manual TEMPLATE.
#include "app/cli/command.hpp"
#include "app/cli/reference/outline.hpp"
#include "app/formats/text_file.hpp"

#include <cstdio>
#include <exception>
#include <string>

namespace {

int write(const std::string& kind, const char* pageTemplate) {
    using namespace quillbench;
    CLI::App app;
    int exitCode = cli::kDone;
    cli::addAll(app, exitCode);
    const auto commands = cli::outlineOf(app);
    std::string text;
    if (kind == "bash") {
        text = cli::bashCompletion(commands);
    } else if (kind == "zsh") {
        text = cli::zshCompletion(commands);
    } else if (kind == "fish") {
        text = cli::fishCompletion(commands);
    } else if (kind == "manual" && pageTemplate != nullptr) {
        const Result<std::string> page = readTextFile(pageTemplate);
        if (!page) {
            std::fprintf(stderr, "%s\n", page.error().text.c_str());
            return cli::kUnreadableInput;
        }
        static constexpr std::string_view kMark = "@COMMANDS@\n";
        const std::size_t mark = page->find(kMark);
        if (mark == std::string::npos) {
            std::fprintf(stderr, "%s: has no line @COMMANDS@\n", pageTemplate);
            return cli::kUnreadableInput;
        }
        text = *page;
        text.replace(mark, kMark.size(), cli::manualSections(commands));
    } else {
        std::fprintf(stderr, "usage: quillbench-cli-reference bash|zsh|fish|manual TEMPLATE\n");
        return cli::kWrongCommandLine;
    }
    std::fputs(text.c_str(), stdout);
    return cli::kDone;
}

} // namespace

int main(int argc, char** argv) {
    try {
        return write(argc > 1 ? argv[1] : "", argc > 2 ? argv[2] : nullptr);
    } catch (const std::exception& error) {
        std::fprintf(stderr, "quillbench-cli-reference: %s\n", error.what());
        return 70;
    }
}
