#include "app/cli/command.hpp"
#include "app/cli/measure_plot.hpp"
#include "app/cli/measure_report.hpp"
#include "app/cli/measure_request.hpp"
#include "app/cli/recording_job.hpp"
#include "app/formats/json_fields.hpp"
#include "app/formats/text_file.hpp"
#include "audio/sound_file.hpp"
#include "core/analysis/note_in_recording.hpp"
#include "core/dsp/single_string.hpp"

#include <algorithm>
#include <cstdio>
#include <filesystem>
#include <memory>

namespace quillbench::cli {

namespace {

struct MeasureOptions {
    MeasureQuestion question;
    std::string batch;
    bool json = false;
    bool explain = false;
    std::string plot;
};

struct Measured {
    MeasureContext context;
    StringReading reading;
    std::optional<ListeningTrace> trace; ///< of the longest window, where a picture is wanted
};

/// Puts the recognised note of the first pluck and its target into the request; leaves it without a target where
/// no note is recognised.
void recognise(const MeasureQuestion& question,
               const Sound& sound,
               std::span<const FrameIndex> onsets,
               FrameIndex from,
               MeasureRequest& request) {
    const auto midi = recogniseNote(sound.samples, sound.rate, onsets, from, Hertz(question.a4));
    if (!midi) {
        return;
    }
    const Note note = noteOfKey(*midi);
    const auto pitch = eightFootPitch(note, question.a4, question.temperament);
    if (pitch) {
        request.note = note;
        request.target = *pitch;
    }
}

/// All windows of one question. **Errors** as reading the file and understanding the question.
Result<std::vector<Measured>> answer(const MeasureQuestion& question,
                                     const std::optional<std::string>& id,
                                     const std::filesystem::path& folder,
                                     bool traced) {
    auto request = understand(question);
    if (!request) {
        return Unexpected<Error>(request.error());
    }
    const auto sound = readSound(placeOf(question.file, folder), question.channel);
    if (!sound) {
        return Unexpected<Error>(sound.error());
    }
    MeasureContext context;
    context.id = id;
    context.question = &question;
    context.request = *request;
    context.rate = sound->rate;
    std::vector<double> windows = question.windows;
    if (windows.empty()) {
        windows.push_back(StringListener::kLongest.count());
    }
    std::vector<StringReading> readings(windows.size());
    std::optional<ListeningTrace> trace;
    const auto longest = static_cast<std::size_t>(std::max_element(windows.begin(), windows.end()) -
                                                  windows.begin());
    const auto onsets = onsetsIn(sound->samples, sound->rate);
    const FrameIndex from(static_cast<std::int64_t>(question.from * sound->rate.hz()));
    if (!request->target) {
        recognise(question, *sound, onsets, from, *request);
        context.request = *request;
    }
    if (request->target) {
        ListeningFor what;
        what.target = *request->target;
        what.range = Cents(question.rangeCents);
        what.alsoSounding = request->alsoRatio;
        const auto pluck = firstPluckOf(what, sound->samples, sound->rate, onsets, from);
        context.plucked = pluck.has_value();
        if (pluck) {
            readings = readingsAfter(*pluck, what, sound->samples, sound->rate, windows);
            if (traced) {
                trace = listenAfter(*pluck, what, sound->samples, sound->rate, windows[longest])
                            .trace();
            }
        }
    }
    std::vector<Measured> lines;
    for (std::size_t i = 0; i < windows.size(); ++i) {
        context.window =
            question.windows.empty() ? std::nullopt : std::optional<double>(windows[i]);
        lines.push_back({context, readings[i], i == longest ? trace : std::nullopt});
    }
    return lines;
}

/// Draws the reading that has a trace, if there is one. **Errors** BadArgument: the file cannot be written.
std::optional<Error> draw(const std::vector<Measured>& lines, const std::string& path) {
    for (const Measured& line : lines) {
        if (line.trace) {
            const auto written =
                writeTextFile(path, measurePlot(line.context, line.reading, *line.trace));
            if (!written) {
                return Error{ErrorCode::BadArgument, written.error().text, path};
            }
        }
    }
    return std::nullopt;
}

/// See recording_job.hpp.
struct MeasureJob {
    static constexpr const char* kName = "measure";
    using Question = MeasureQuestion;
    using Line = Measured;

    bool json = false;
    bool explain = false;
    std::string plot; ///< file of the picture; empty for none

    static std::vector<std::string> unknownFields(const BatchRow& row) {
        return unknownMeasureFields(row);
    }

    static Result<Question> questionOf(const BatchRow& row) { return measureQuestionOf(row); }

    [[nodiscard]] Result<std::vector<Line>> answer(const Question& question,
                                                   const std::optional<std::string>& id,
                                                   const std::filesystem::path& folder) const {
        auto lines = cli::answer(question, id, folder, !plot.empty());
        if (lines && !plot.empty()) {
            if (const auto problem = draw(*lines, plot)) {
                return Unexpected<Error>(*problem);
            }
        }
        return lines;
    }

    static bool holdsSomething(const Line& line) {
        return line.reading.standing != Standing::Nothing;
    }

    void print(const std::optional<std::string>& /*id*/,
               const Question& /*question*/,
               const Line& line) const {
        const std::string text =
            json ? formatJsonLine(measureJson(line.context, line.reading)) + "\n"
                 : measureTable(line.context, line.reading);
        std::fputs(text.c_str(), stdout);
        if (explain && holdsSomething(line)) {
            std::fputs(measureExplanation(line.reading).c_str(), json ? stderr : stdout);
        }
    }

    void printProblem(const std::optional<std::string>& id,
                      const Question& question,
                      std::optional<double> window,
                      const std::string& text) const {
        if (json) {
            std::puts(formatJsonLine(errorJson(id, question, window, text)).c_str());
        }
    }
};

} // namespace

void addMeasure(CLI::App& app, int& exitCode) {
    const auto options = std::make_shared<MeasureOptions>();
    MeasureQuestion& question = options->question;
    CLI::App* command = app.add_subcommand("measure", "The pitch of one string in a recording");
    command->add_option("file", question.file, "Recording: WAV, FLAC, AIFF, Ogg");
    command->add_option("--note", question.note, "Key, such as A3 or F#4");
    command->add_flag("--helmholtz", question.helmholtz, "Note names by Helmholtz");
    command->add_option("--choir", question.choir, "8, 8b, 4 or 16 (default 8)");
    command->add_option("--target-hz", question.targetHz, "Target pitch, instead of the note's");
    command->add_option("--also", question.also, "Another choir of the same key that sounds too");
    addRecordingOptions(*command, question);
    command->add_option("--batch", options->batch, "A JSON list of what to measure");
    command->add_flag("--json", options->json, "One JSON object a line");
    command->add_flag("--explain", options->explain, "Partial by partial what was used");
    command->add_option("--plot", options->plot, "Draw the reading into this SVG file");
    addExamples(*command,
                {"measure note.wav",
                 "measure note.wav --note A3 --a4 415 --temperament vallotti",
                 "measure note.wav --note A3 --window 1 --explain --plot note.svg",
                 "measure --batch list.json --json"});
    command->callback([options, &exitCode] {
        if (!options->batch.empty() && !options->plot.empty()) {
            complain(MeasureJob::kName, "--plot draws one reading: give one FILE, not --batch");
            exitCode = kWrongCommandLine;
            return;
        }
        exitCode = run(MeasureJob{options->json, options->explain, options->plot},
                       options->question,
                       options->batch);
    });
}

} // namespace quillbench::cli
