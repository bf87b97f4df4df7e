#include "app/cli/command.hpp"
#include "app/cli/damping_request.hpp"
#include "app/cli/recording_job.hpp"
#include "app/formats/json_fields.hpp"
#include "audio/sound_file.hpp"
#include "core/dsp/damper/release_fit.hpp"

#include <nlohmann/json.hpp>

#include <cstdio>
#include <filesystem>
#include <memory>

namespace quillbench::cli {

namespace {

using nlohmann::ordered_json;

constexpr int kDampingSchema = 1;

struct DampingOptions {
    DampingQuestion question;
    std::string batch;
    bool json = false;
};

/// **Errors** as reading the file and understanding the question.
Result<ReleaseReading> answer(const DampingQuestion& question,
                              const std::filesystem::path& folder) {
    const auto string = understand(question);
    if (!string) {
        return Unexpected<Error>(string.error());
    }
    const auto sound = readSound(placeOf(question.file, folder), question.channel);
    if (!sound) {
        return Unexpected<Error>(sound.error());
    }
    return hearRelease(sound->samples, sound->rate, *string);
}

const char* statusOf(const ReleaseReading& reading) {
    return !reading.found ? "nothing" : reading.weak ? "weak" : "ok";
}

ordered_json dampingHeader(const std::optional<std::string>& id, const std::string& file) {
    ordered_json out;
    out["schema"] = kDampingSchema;
    out["kind"] = "damping";
    out["id"] = id ? ordered_json(*id) : ordered_json(nullptr);
    out["file"] = file;
    return out;
}

ordered_json toJson(const std::optional<std::string>& id,
                    const DampingQuestion& question,
                    const ReleaseReading& reading) {
    ordered_json out = dampingHeader(id, question.file);
    out["status"] = statusOf(reading);
    const auto known = [&reading](double value) {
        return reading.found ? ordered_json(value) : ordered_json(nullptr);
    };
    out["release_s"] = known(reading.release.count());
    out["release_s_u"] = known(reading.releaseU.count());
    out["t60_after_s"] = known(reading.decay60.count());
    out["t60_after_s_u"] = known(reading.decay60U.count());
    out["stop_s"] = known(reading.stop.count());
    out["residual_db"] = known(reading.residualDb);
    out["warnings"] = ordered_json::array();
    return out;
}

void print(const std::optional<std::string>& id,
           const DampingQuestion& question,
           const ReleaseReading& reading,
           bool json) {
    if (json) {
        std::puts(formatJsonLine(toJson(id, question, reading)).c_str());
        return;
    }
    if (!reading.found) {
        std::printf("%s: no release was heard\n", question.file.c_str());
        return;
    }
    std::printf("%s: the damper takes hold at %.3f ±%.3f s, 40 dB down after %.0f ms "
                "(60 dB in %.2f ±%.2f s), %.0f dB remain%s\n",
                question.file.c_str(),
                reading.release.count(),
                reading.releaseU.count(),
                1000.0 * reading.stop.count(),
                reading.decay60.count(),
                reading.decay60U.count(),
                reading.residualDb,
                reading.weak ? " — weak" : "");
}

struct DampingJob {
    static constexpr const char* kName = "damping";
    using Question = DampingQuestion;
    using Line = ReleaseReading;

    bool json = false;

    static std::vector<std::string> unknownFields(const BatchRow& row) {
        return unknownDampingFields(row);
    }

    static Result<Question> questionOf(const BatchRow& row) { return dampingQuestionOf(row); }

    static Result<std::vector<Line>> answer(const Question& question,
                                            const std::optional<std::string>& /*id*/,
                                            const std::filesystem::path& folder) {
        auto reading = cli::answer(question, folder);
        if (!reading) {
            return Unexpected<Error>(reading.error());
        }
        return std::vector<Line>{*std::move(reading)};
    }

    static bool holdsSomething(const Line& line) { return line.found; }

    void
    print(const std::optional<std::string>& id, const Question& question, const Line& line) const {
        cli::print(id, question, line, json);
    }

    void printProblem(const std::optional<std::string>& id,
                      const Question& question,
                      std::optional<double> /*window*/,
                      const std::string& text) const {
        if (json) {
            ordered_json out = dampingHeader(id, question.file);
            out["status"] = "error";
            out["error"] = text;
            std::puts(formatJsonLine(out).c_str());
        }
    }
};

} // namespace

void addDamping(CLI::App& app, int& exitCode) {
    const auto options = std::make_shared<DampingOptions>();
    DampingQuestion& question = options->question;
    CLI::App* command =
        app.add_subcommand("damping", "How soon a string stops when its key is let go");
    command->add_option("file", question.file, "Recording: WAV, FLAC, AIFF, Ogg");
    command->add_option("--note", question.note, "Key, such as C4");
    command->add_flag("--helmholtz", question.helmholtz, "Note names by Helmholtz");
    command->add_option("--choir", question.choir, "8, 8b, 4 or 16 (default 8)");
    command->add_option("--target-hz", question.targetHz, "Pitch of the string, instead");
    command->add_option("--a4", question.a4, "Pitch of A4 in hertz (default 415)");
    command->add_option("--temperament", question.temperament, "Name (default equal)");
    command->add_option("--channel", question.channel, "Channel from 0 (default the mean of all)");
    command->add_option("--batch", options->batch, "A JSON list of key releases");
    command->add_flag("--json", options->json, "One JSON object a line");
    addExamples(*command, {"damping note.wav --note A3"});
    command->callback([options, &exitCode] {
        exitCode = run(DampingJob{options->json}, options->question, options->batch);
    });
}

} // namespace quillbench::cli
