#include "app/cli/command.hpp"
#include "app/cli/plucks_request.hpp"
#include "app/cli/recording_job.hpp"
#include "app/formats/json_fields.hpp"
#include "audio/sound_file.hpp"
#include "core/dsp/stagger/stagger_listener.hpp"
#include "core/support/excerpt.hpp"

#include <nlohmann/json.hpp>

#include <cstdio>
#include <filesystem>
#include <memory>

namespace quillbench::cli {

namespace {

using nlohmann::ordered_json;

constexpr int kPlucksSchema = 1;
/// Closer than this two registers pluck together under the finger.
constexpr Seconds kTogether{0.004};

struct PlucksOptions {
    PlucksQuestion question;
    std::string choirs;
    std::vector<std::string> solos;
    std::string batch;
    bool json = false;
};

struct PlucksLine {
    StaggerReading reading;
    std::vector<std::string> warnings;
};

std::vector<std::string> warningsFor(const PlucksQuestion& question,
                                     const StaggerReading& reading) {
    std::vector<std::string> warnings;
    for (std::size_t i = 1; i < reading.plucks.size(); ++i) {
        if (reading.plucks[i].at - reading.plucks[i - 1].at < kTogether) {
            warnings.emplace_back("two plucks within 4 ms");
            break;
        }
    }
    for (std::size_t c = 0; c < question.choirs.size() && !reading.plucks.empty(); ++c) {
        bool plucked = false;
        for (const ChoirPluck& pluck : reading.plucks) {
            plucked = plucked || pluck.choir == c;
        }
        if (!plucked) {
            warnings.push_back("no pluck of " + question.choirs[c] + " was heard");
        }
    }
    if (reading.weak) {
        warnings.emplace_back("which register plucked when is not sure");
    }
    if (question.solos.size() < question.choirs.size()) {
        warnings.emplace_back("without a solo of each register choirs are guesses");
    }
    return warnings;
}

/// **Errors** as reading the files and understanding the question.
Result<PlucksLine> answer(const PlucksQuestion& question, const std::filesystem::path& folder) {
    const auto request = understand(question);
    if (!request) {
        return Unexpected<Error>(request.error());
    }
    const auto read = [&](const std::string& name) {
        return readSound(placeOf(name, folder), question.channel);
    };
    const auto sound = read(question.file);
    if (!sound) {
        return Unexpected<Error>(sound.error());
    }
    std::map<std::string, Sound> solos;
    for (const auto& [choir, name] : question.solos) {
        auto solo = read(name);
        if (!solo) {
            return Unexpected<Error>(solo.error());
        }
        solos.emplace(choir, *std::move(solo));
    }
    StaggerQuestion stagger;
    stagger.key = request->key;
    for (std::size_t c = 0; c < question.choirs.size(); ++c) {
        StaggeredChoir choir;
        choir.ratio = request->ratios[c];
        if (const auto solo = solos.find(question.choirs[c]); solo != solos.end()) {
            choir.solo = SoloSound{solo->second.samples, solo->second.rate};
        }
        stagger.choirs.tryPush(choir);
    }
    PlucksLine line;
    line.reading = listenToStagger(sound->samples, sound->rate, stagger);
    line.warnings = warningsFor(question, line.reading);
    return line;
}

double spreadMs(const StaggerReading& reading) {
    return 1000.0 * (reading.plucks[reading.plucks.size() - 1].at - reading.plucks[0].at).count();
}

const char* statusOf(const StaggerReading& reading) {
    return reading.plucks.empty() ? "nothing" : reading.weak ? "weak" : "ok";
}

ordered_json plucksHeader(const std::optional<std::string>& id, const std::string& file) {
    ordered_json out;
    out["schema"] = kPlucksSchema;
    out["kind"] = "plucks";
    out["id"] = id ? ordered_json(*id) : ordered_json(nullptr);
    out["file"] = file;
    return out;
}

ordered_json toJson(const std::optional<std::string>& id,
                    const PlucksQuestion& question,
                    const PlucksLine& line) {
    ordered_json out = plucksHeader(id, question.file);
    out["status"] = statusOf(line.reading);
    out["plucks"] = ordered_json::array();
    for (const ChoirPluck& pluck : line.reading.plucks) {
        out["plucks"].push_back({{"time_s", pluck.at.count()},
                                 {"time_s_u", pluck.uncertainty.count()},
                                 {"choir", question.choirs[pluck.choir]},
                                 {"choir_confidence", pluck.confidence},
                                 {"level_db", pluck.level.value()}});
    }
    out["spread_ms"] =
        line.reading.plucks.empty() ? ordered_json(nullptr) : ordered_json(spreadMs(line.reading));
    out["count_confidence"] = line.reading.countConfidence;
    out["warnings"] = line.warnings;
    return out;
}

void printTable(const PlucksQuestion& question, const PlucksLine& line) {
    if (line.reading.plucks.empty()) {
        std::printf("%s: no pluck was heard\n", question.file.c_str());
        return;
    }
    std::printf("%s: %zu plucks in %.1f ms%s\n",
                question.file.c_str(),
                line.reading.plucks.size(),
                spreadMs(line.reading),
                line.reading.weak ? " — weak" : "");
    std::printf("  %-6s %10s %10s %10s %10s\n", "choir", "time s", "after ms", "level dB", "sure");
    for (const ChoirPluck& pluck : line.reading.plucks) {
        std::printf("  %-6s %10.4f %10.1f %10.1f %9.0f%%\n",
                    question.choirs[pluck.choir].c_str(),
                    pluck.at.count(),
                    1000.0 * (pluck.at - line.reading.plucks[0].at).count(),
                    pluck.level.value(),
                    100.0 * pluck.confidence);
    }
}

void print(const std::optional<std::string>& id,
           const PlucksQuestion& question,
           const PlucksLine& line,
           bool json) {
    if (json) {
        std::puts(formatJsonLine(toJson(id, question, line)).c_str());
        return;
    }
    printTable(question, line);
    for (const std::string& warning : line.warnings) {
        complain("plucks", question.file + ": " + warning);
    }
}

struct PlucksJob {
    static constexpr const char* kName = "plucks";
    using Question = PlucksQuestion;
    using Line = PlucksLine;

    bool json = false;

    static std::vector<std::string> unknownFields(const BatchRow& row) {
        return unknownPlucksFields(row);
    }

    static Result<Question> questionOf(const BatchRow& row) { return plucksQuestionOf(row); }

    static Result<std::vector<Line>> answer(const Question& question,
                                            const std::optional<std::string>& /*id*/,
                                            const std::filesystem::path& folder) {
        auto line = cli::answer(question, folder);
        if (!line) {
            return Unexpected<Error>(line.error());
        }
        return std::vector<Line>{*std::move(line)};
    }

    static bool holdsSomething(const Line& line) { return !line.reading.plucks.empty(); }

    void
    print(const std::optional<std::string>& id, const Question& question, const Line& line) const {
        cli::print(id, question, line, json);
    }

    void printProblem(const std::optional<std::string>& id,
                      const Question& question,
                      std::optional<double> /*window*/,
                      const std::string& text) const {
        if (json) {
            ordered_json out = plucksHeader(id, question.file);
            out["status"] = "error";
            out["error"] = text;
            std::puts(formatJsonLine(out).c_str());
        }
    }
};

/// **Errors** one line that says how a solo is to be given.
Result<void> takeSolos(const std::vector<std::string>& solos, PlucksQuestion& question) {
    for (const std::string& solo : solos) {
        const auto equals = solo.find('=');
        if (equals == std::string::npos || equals == 0 || equals + 1 == solo.size()) {
            return failure(ErrorCode::BadArgument,
                           "solo '" + excerpt(solo) +
                               "' has to be CHOIR=FILE, such as 8=alone.wav");
        }
        question.solos[solo.substr(0, equals)] = solo.substr(equals + 1);
    }
    return {};
}

int plucks(const PlucksOptions& options) {
    PlucksQuestion question = options.question;
    question.choirs = splitAtCommas(options.choirs);
    if (const Result<void> taken = takeSolos(options.solos, question); !taken) {
        complain(PlucksJob::kName, taken.error().text);
        return kWrongCommandLine;
    }
    return run(PlucksJob{options.json}, question, options.batch);
}

} // namespace

void addPlucks(CLI::App& app, int& exitCode) {
    const auto options = std::make_shared<PlucksOptions>();
    PlucksQuestion& question = options->question;
    CLI::App* command =
        app.add_subcommand("plucks", "Which register plucks when, as one key goes down slowly");
    command->add_option("file", question.file, "Recording: WAV, FLAC, AIFF, Ogg");
    command->add_option("--note", question.note, "Key, such as C4");
    command->add_flag("--helmholtz", question.helmholtz, "Note names by Helmholtz");
    command->add_option("--target-hz", question.targetHz, "8' pitch of the key, instead");
    command->add_option("--choirs", options->choirs, "Registers that are on, such as 8,8b,4");
    command->add_option("--solo", options->solos, "CHOIR=FILE: one pluck of that register alone");
    command->add_option("--a4", question.a4, "Pitch of A4 in hertz (default 415)");
    command->add_option("--temperament", question.temperament, "Name (default equal)");
    command->add_option("--channel", question.channel, "Channel from 0 (default the mean of all)");
    command->add_option("--batch", options->batch, "A JSON list of keys");
    command->add_flag("--json", options->json, "One JSON object a line");
    addExamples(
        *command,
        {"plucks key.wav --note C4 --choirs 8,8b,4",
         "plucks key.wav --note C4 --choirs 8,8b --solo 8=front.wav --solo 8b=back.wav --json"});
    command->callback([options, &exitCode] { exitCode = plucks(*options); });
}

} // namespace quillbench::cli
