#include "app/cli/command.hpp"
#include "app/cli/reference/outline.hpp"

#include <map>

namespace quillbench::cli {

namespace {

std::string joined(const std::vector<std::string>& words, const std::string& between) {
    std::string text;
    for (const std::string& word : words) {
        text += (text.empty() ? "" : between) + word;
    }
    return text;
}

/// In single quotes, as every one of the shells takes it.
std::string inQuotes(const std::string& text) {
    std::string safe = "'";
    for (const char letter : text) {
        safe += letter == '\'' ? std::string("'\\''") : std::string(1, letter);
    }
    return safe + '\'';
}

std::vector<std::string> optionNames(const CommandOutline& command) {
    std::vector<std::string> names;
    for (const OptionOutline& option : command.options) {
        if (!option.positional) {
            names.insert(names.end(), option.names.begin(), option.names.end());
        }
    }
    return names;
}

/// What may stand where no option is begun: subcommands, or the first positional.
Completion placeOf(const CommandOutline& command) {
    if (!command.subcommands.empty()) {
        return {false, command.subcommands};
    }
    for (const OptionOutline& option : command.options) {
        if (option.positional) {
            return option.completion;
        }
    }
    return {};
}

std::string bashReply(const Completion& completion) {
    std::string reply;
    if (!completion.words.empty()) {
        reply += "COMPREPLY=($(compgen -W " + inQuotes(joined(completion.words, " ")) +
                 " -- \"$current\")); ";
    }
    if (completion.files) {
        reply += "compopt -o filenames 2>/dev/null; COMPREPLY+=($(compgen -f -- \"$current\")) ";
    }
    return reply + ";;\n";
}

/// Labels of a case with what is answered; labels with the same answer stand together.
std::string bashCases(const std::vector<std::pair<std::string, std::string>>& answers) {
    std::map<std::string, std::vector<std::string>> labels;
    for (const auto& [label, reply] : answers) {
        labels[reply].push_back(inQuotes(label));
    }
    std::string text;
    for (const auto& [reply, names] : labels) {
        text += "    " + joined(names, " | ") + ") " + reply;
    }
    return text;
}

std::string zshCommand(const CommandOutline& command) {
    std::string text;
    std::size_t place = 0;
    for (const OptionOutline& option : command.options) {
        std::string about;
        for (const char letter : option.about) {
            const bool special = letter == '[' || letter == ']' || letter == ':' || letter == '\\';
            about += special ? std::string("\\") + letter : std::string(1, letter);
        }
        std::string action;
        if (option.completion.files && !option.completion.words.empty()) {
            action = "{_alternative \"ids\\:id\\:(" + joined(option.completion.words, " ") +
                     ")\" \"files\\:file\\:_files\"}";
        } else if (option.completion.files) {
            action = "_files";
        } else if (!option.completion.words.empty()) {
            action = "(" + joined(option.completion.words, " ") + ")";
        }
        for (const std::string& name : option.names) {
            std::string spec = option.positional ? std::to_string(++place) + ':' : std::string();
            spec += name;
            if (!option.positional) {
                spec.append("[").append(about).append(option.takesValue ? "]:value" : "]");
            }
            if (option.takesValue) {
                spec += ':' + (action.empty() ? std::string(" ") : action);
            }
            text += " \\\n            " + inQuotes(spec);
        }
    }
    return text;
}

std::string fishCondition(const CommandOutline& command) {
    if (command.path.empty()) {
        return inQuotes("__fish_use_subcommand");
    }
    const std::size_t space = command.path.find(' ');
    std::string condition = "__fish_seen_subcommand_from " + command.path.substr(0, space);
    if (space != std::string::npos) {
        condition += "; and __fish_seen_subcommand_from " + command.path.substr(space + 1);
    } else if (!command.subcommands.empty()) {
        condition += "; and not __fish_seen_subcommand_from " + joined(command.subcommands, " ");
    }
    return inQuotes(condition);
}

std::string fishValues(const Completion& completion) {
    std::string text;
    if (!completion.words.empty()) {
        text += " -a " + inQuotes(joined(completion.words, " "));
    }
    return text + (completion.files ? " -F" : " -f");
}

} // namespace

std::string bashCompletion(const std::vector<CommandOutline>& commands) {
    std::vector<std::string> paths;
    std::vector<std::pair<std::string, std::string>> values;
    std::vector<std::pair<std::string, std::string>> options;
    std::vector<std::pair<std::string, std::string>> places;
    for (const CommandOutline& command : commands) {
        for (const std::string& child : command.subcommands) {
            paths.push_back(inQuotes(command.path + '/' + child));
        }
        options.emplace_back(command.path, bashReply({false, optionNames(command)}));
        places.emplace_back(command.path, bashReply(placeOf(command)));
        for (const OptionOutline& option : command.options) {
            if (option.takesValue && !option.positional) {
                for (const std::string& name : option.names) {
                    values.emplace_back(command.path + '/' + name,
                                        "taken=yes " + bashReply(option.completion));
                }
            }
        }
    }
    return "# Completes quillbench-cli in bash. Made from the program's own list of commands.\n"
           "_quillbench_cli() {\n"
           "    local current=${COMP_WORDS[COMP_CWORD]} command= taken= word at\n"
           "    COMPREPLY=()\n"
           "    for ((at = 1; at < COMP_CWORD; ++at)); do\n"
           "        word=${COMP_WORDS[at]}\n"
           "        case \"$command/$word\" in\n"
           "        " +
           joined(paths, " | ") +
           ") command=\"${command:+$command }$word\" ;;\n"
           "        esac\n"
           "    done\n"
           "    case \"$command/${COMP_WORDS[COMP_CWORD - 1]}\" in\n" +
           bashCases(values) +
           "    esac\n"
           "    [ -z \"$taken\" ] || return 0\n"
           "    case \"$current\" in\n"
           "    -*) ;;\n"
           "    *)\n"
           "    case \"$command\" in\n" +
           bashCases(places) +
           "    esac\n"
           "    ;;\n"
           "    esac\n"
           "    [ \"${#COMPREPLY[@]}\" -eq 0 ] || return 0\n"
           "    case \"$command\" in\n" +
           bashCases(options) +
           "    esac\n"
           "}\n"
           "complete -F _quillbench_cli quillbench-cli\n";
}

std::string zshCompletion(const std::vector<CommandOutline>& commands) {
    std::string text = "#compdef quillbench-cli\n"
                       "# Completes quillbench-cli in zsh. Made from the program's own list of "
                       "commands.\n"
                       "_quillbench_cli() {\n"
                       "    local command= word at\n"
                       "    for ((at = 2; at < CURRENT; ++at)); do\n"
                       "        word=${words[at]}\n"
                       "        case \"$command/$word\" in\n";
    for (const CommandOutline& command : commands) {
        for (const std::string& child : command.subcommands) {
            text += "        " + inQuotes(command.path + '/' + child) +
                    ") command=\"${command:+$command }$word\" ;;\n";
        }
    }
    text += "        esac\n"
            "    done\n"
            "    case \"$command\" in\n";
    for (const CommandOutline& command : commands) {
        text += "    " + inQuotes(command.path) + ")\n";
        if (!command.subcommands.empty()) {
            text += "        _arguments" + zshCommand(command) + " \\\n            " +
                    inQuotes("*:command:(" + joined(command.subcommands, " ") + ")") + "\n";
        } else {
            const std::string depth = command.path.find(' ') == std::string::npos ? "1" : "2";
            text.append("        shift ").append(depth).append(" words; (( CURRENT -= ");
            text.append(depth).append(" ))\n        _arguments");
            text.append(zshCommand(command)).append("\n");
        }
        text += "        ;;\n";
    }
    return text + "    esac\n}\n_quillbench_cli \"$@\"\n";
}

std::string fishCompletion(const std::vector<CommandOutline>& commands) {
    std::string text =
        "# Completes quillbench-cli in fish. Made from the program's own list of commands.\n"
        "complete -c quillbench-cli -f\n";
    for (const CommandOutline& command : commands) {
        const std::string begin = "complete -c quillbench-cli -n " + fishCondition(command);
        const Completion place = placeOf(command);
        if (!place.empty()) {
            text += begin + fishValues(place) + '\n';
        }
        for (const OptionOutline& option : command.options) {
            if (option.positional) {
                continue;
            }
            text += begin;
            for (const std::string& name : option.names) {
                text +=
                    name.substr(0, 2) == "--" ? " -l " + name.substr(2) : " -s " + name.substr(1);
            }
            if (option.takesValue) {
                text += " -r" + fishValues(option.completion);
            }
            text += " -d " + inQuotes(option.about) + '\n';
        }
    }
    return text;
}

} // namespace quillbench::cli
