#include "app/cli/command.hpp"
#include "app/cli/reference/outline.hpp"

namespace quillbench::cli {

namespace {

/// Text as it is to be seen: no line of it is taken for a command, every dash and quote is a plain one.
std::string asTyped(const std::string& text) {
    std::string safe;
    for (const char letter : text) {
        switch (letter) {
        case '\\':
            safe += "\\(rs";
            break;
        case '-':
            safe += "\\-";
            break;
        case '\'':
            safe += "\\(aq";
            break;
        case '\n':
            safe += ' ';
            break;
        default:
            safe += letter;
        }
    }
    return safe;
}

std::string nameLine(const OptionOutline& option) {
    std::string line = ".TP\n";
    for (std::size_t i = 0; i < option.names.size(); ++i) {
        line += (i == 0 ? "" : ", ") +
                ((option.positional ? "\\fI" : "\\fB") + asTyped(option.names[i]) + "\\fR");
    }
    if (option.takesValue && !option.positional) {
        line += " \\fIVALUE\\fR";
    }
    return line + '\n';
}

std::string section(const CommandOutline& command) {
    std::string text = ".SS \"" + asTyped(command.path) + "\"\n" + asTyped(command.about) + ".\n";
    for (const OptionOutline& option : command.options) {
        if (option.names.front() == "--help") {
            continue; // said once, of all
        }
        text += nameLine(option) + asTyped(option.about) +
                (option.required ? " (has to be given)" : "") + ".\n";
    }
    if (!command.examples.empty()) {
        text += ".PP\nExamples:\n.PP\n.RS 4\n.nf\n";
        for (const std::string& example : command.examples) {
            text += asTyped(example) + '\n';
        }
        text += ".fi\n.RE\n";
    }
    return text;
}

} // namespace

std::string manualSections(const std::vector<CommandOutline>& commands) {
    std::string text;
    for (const CommandOutline& command : commands) {
        if (!command.path.empty()) {
            text += section(command);
        }
    }
    return text;
}

} // namespace quillbench::cli
