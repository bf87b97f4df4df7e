#include "app/cli/reference/outline.hpp"

#include "app/cli/command.hpp"
#include "core/instrument/examples.hpp"
#include "core/instrument/material.hpp"
#include "core/pitch/interval.hpp"
#include "core/temperament/catalogue.hpp"

#include <algorithm>
#include <map>
#include <sstream>
#include <stdexcept>

namespace quillbench::cli {

namespace {

using Completions = std::map<std::string, Completion>;

std::vector<std::string> temperamentIds() {
    std::vector<std::string> ids;
    for (const Temperament& temperament : catalogue()) {
        ids.push_back(temperament.id());
    }
    return ids;
}

std::vector<std::string> instrumentIds() {
    std::vector<std::string> ids;
    for (const Instrument& instrument : exampleInstruments()) {
        ids.push_back(instrument.id);
    }
    return ids;
}

template <typename Range>
std::vector<std::string> idsOf(const Range& range) {
    std::vector<std::string> ids;
    for (const auto& one : range) {
        ids.emplace_back(one.id);
    }
    return ids;
}

/// By the name of the option or positional: it means the same wherever it stands.
Completions completionsByName() {
    const Completion file{true, {}};
    const Completion choir{false, {"8", "8b", "4", "16"}};
    return {{"file", file},
            {"from", file},
            {"to", file},
            {"OUT", file},
            {"--alone", file},
            {"--batch", file},
            {"--csv", file},
            {"--logbook", file},
            {"--out", file},
            {"--plot", file},
            {"name", {true, temperamentIds()}},
            {"--temperament", {true, temperamentIds()}},
            {"--instrument", {true, instrumentIds()}},
            {"--material", {false, idsOf(materials())}},
            {"--interval", {false, idsOf(intervals())}},
            {"--choir", choir},
            {"--also", choir},
            {"--lower-choir", choir},
            {"--upper-choir", choir}};
}

/// "TEXT:{F3..C5,C3..G4}" names what alone is taken.
std::vector<std::string> membersOf(const std::string& type) {
    const std::size_t begin = type.find('{');
    const std::size_t end = type.rfind('}');
    std::vector<std::string> members;
    if (begin != std::string::npos && end != std::string::npos && end > begin) {
        std::istringstream list(type.substr(begin + 1, end - begin - 1));
        for (std::string member; std::getline(list, member, ',');) {
            members.push_back(member);
        }
    }
    return members;
}

OptionOutline outlineOf(const CLI::Option& option, Completions& unused, const Completions& all) {
    OptionOutline outline;
    outline.positional = option.get_positional();
    outline.required = option.get_required();
    outline.takesValue = option.get_items_expected_max() > 0;
    outline.about = option.get_description();
    for (const std::string& name : option.get_lnames()) {
        outline.names.push_back("--" + name);
    }
    for (const std::string& name : option.get_snames()) {
        outline.names.push_back("-" + name);
    }
    if (outline.positional) {
        outline.names = {option.get_name(true)};
    }
    outline.completion.words = membersOf(option.get_type_name());
    const std::string& name = outline.names.front();
    if (const auto known = all.find(name); known != all.end() && outline.completion.empty()) {
        outline.completion = known->second;
        unused.erase(name);
    }
    return outline;
}

std::vector<std::string> examplesIn(const std::string& footer) {
    std::vector<std::string> examples;
    std::istringstream lines(footer);
    for (std::string line; std::getline(lines, line);) {
        const std::size_t begin = line.find(kProgram);
        if (begin != std::string::npos) {
            examples.push_back(line.substr(begin));
        }
    }
    return examples;
}

void collect(const CLI::App& app,
             const std::string& path,
             Completions& unused,
             const Completions& all,
             std::vector<CommandOutline>& commands) {
    CommandOutline outline;
    outline.path = path;
    outline.about = app.get_description();
    outline.examples = examplesIn(app.get_footer());
    for (const CLI::Option* option : app.get_options()) {
        outline.options.push_back(outlineOf(*option, unused, all));
    }
    const std::vector<const CLI::App*> children =
        app.get_subcommands([](const CLI::App*) { return true; });
    for (const CLI::App* child : children) {
        outline.subcommands.push_back(child->get_name());
    }
    commands.push_back(std::move(outline));
    for (const CLI::App* child : children) {
        collect(*child,
                path.empty() ? child->get_name() : path + ' ' + child->get_name(),
                unused,
                all,
                commands);
    }
}

} // namespace

std::vector<CommandOutline> outlineOf(const CLI::App& app) {
    const Completions all = completionsByName();
    Completions unused = all;
    std::vector<CommandOutline> commands;
    collect(app, "", unused, all, commands);
    if (!unused.empty()) {
        throw std::logic_error("no command has the option " + unused.begin()->first);
    }
    return commands;
}

} // namespace quillbench::cli
