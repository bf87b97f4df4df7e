#include "app/cli/command.hpp"
#include "app/cli/measure_report.hpp"
#include "app/cli/measure_request.hpp"
#include "app/formats/batch_file.hpp"
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
};

struct Measured {
    MeasureContext context;
    StringReading reading;
};

void complain(const std::string& text) {
    std::fprintf(stderr, "quillbench-cli measure: %s\n", text.c_str());
}

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
                                     const std::filesystem::path& file) {
    auto request = understand(question);
    if (!request) {
        return Unexpected<Error>(request.error());
    }
    const auto sound = readSound(file, question.channel);
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
        }
    }
    std::vector<Measured> lines;
    for (std::size_t i = 0; i < windows.size(); ++i) {
        context.window =
            question.windows.empty() ? std::nullopt : std::optional<double>(windows[i]);
        lines.push_back({context, readings[i]});
    }
    return lines;
}

void print(const Measured& line, const MeasureOptions& options) {
    std::string text = options.json ? measureJson(line.context, line.reading).dump() + "\n"
                                    : measureTable(line.context, line.reading);
    std::fputs(text.c_str(), stdout);
    if (options.explain && line.reading.standing != Standing::Nothing) {
        std::fputs(measureExplanation(line.reading).c_str(), options.json ? stderr : stdout);
    }
}

int exitCodeOf(const Error& error) {
    switch (error.code) {
    case ErrorCode::BadArgument:
        return kWrongCommandLine;
    case ErrorCode::NothingFound:
        return kNothingToMeasure;
    case ErrorCode::UnreadableInput:
    case ErrorCode::Environment:
        break;
    }
    return kUnreadableInput;
}

int measureOne(const MeasureOptions& options) {
    const auto lines = answer(options.question, std::nullopt, options.question.file);
    if (!lines) {
        complain(lines.error().text);
        return exitCodeOf(lines.error());
    }
    bool any = false;
    for (const Measured& line : *lines) {
        print(line, options);
        any = any || line.reading.standing != Standing::Nothing;
    }
    return any ? kDone : kNothingToMeasure;
}

/// One row; says whether it could be read and whether it gave anything.
struct RowOutcome {
    bool readable = true;
    bool any = false;
};

void printProblem(const MeasureQuestion& question,
                  const BatchRow& row,
                  const std::string& text,
                  const MeasureOptions& options) {
    complain(text);
    const std::size_t count = std::max<std::size_t>(question.windows.size(), 1);
    for (std::size_t i = 0; i < count && options.json; ++i) {
        const auto window =
            i < question.windows.size() ? std::optional<double>(question.windows[i]) : std::nullopt;
        std::puts(errorJson(row.id(), question, window, text).dump().c_str());
    }
}

RowOutcome measureRow(const BatchRow& row,
                      const std::filesystem::path& folder,
                      const MeasureOptions& options) {
    for (const std::string& field : unknownMeasureFields(row)) {
        complain(row.place() + ": the field '" + field + "' is not known and was left out");
    }
    const auto question = questionOf(row);
    if (!question) {
        printProblem({}, row, question.error().text, options);
        return {false, false};
    }
    const std::filesystem::path file(question->file);
    const auto lines = answer(*question, row.id(), file.is_absolute() ? file : folder / file);
    if (!lines) {
        printProblem(*question, row, lines.error().text, options);
        return {false, false};
    }
    RowOutcome outcome;
    for (const Measured& line : *lines) {
        print(line, options);
        outcome.any = outcome.any || line.reading.standing != Standing::Nothing;
    }
    return outcome;
}

int measureBatch(const MeasureOptions& options) {
    const std::filesystem::path list(options.batch);
    const auto rows = readBatch(list);
    if (!rows) {
        complain(rows.error().text);
        return kUnreadableInput;
    }
    bool readable = true;
    bool any = rows->empty();
    for (const BatchRow& row : *rows) {
        const RowOutcome outcome = measureRow(row, list.parent_path(), options);
        readable = readable && outcome.readable;
        any = any || outcome.any;
    }
    if (!readable) {
        return kUnreadableInput;
    }
    return any ? kDone : kNothingToMeasure;
}

int measure(const MeasureOptions& options) {
    if (options.batch.empty() == options.question.file.empty()) {
        complain("give one FILE, or --batch LIST.json");
        return kWrongCommandLine;
    }
    return options.batch.empty() ? measureOne(options) : measureBatch(options);
}

} // namespace

void addMeasure(CLI::App& app, int& exitCode) {
    const auto options = std::make_shared<MeasureOptions>();
    MeasureQuestion& question = options->question;
    CLI::App* command = app.add_subcommand("measure", "The pitch of one string in a recording");
    command->add_option("file", question.file, "Recording: WAV, FLAC, AIFF, Ogg");
    command->add_option("--note", question.note, "Key, such as A3 or F#4");
    command->add_flag("--helmholtz", question.helmholtz, "Note names by Helmholtz");
    command->add_option("--choir", question.choir, "8, 8b, 4 or 16 (default 8)");
    command->add_option("--a4", question.a4, "Pitch of A4 in hertz (default 415)");
    command->add_option("--temperament", question.temperament, "Name (default equal)");
    command->add_option("--target-hz", question.targetHz, "Target pitch, instead of the note's");
    command->add_option("--range-cents", question.rangeCents, "How far to look (default 60)");
    command->add_option("--also", question.also, "Another choir of the same key that sounds too");
    command->add_option("--from", question.from, "Seconds into the recording");
    command->add_option("--window", question.windows, "Seconds after the pluck that may be used");
    command->add_option("--channel", question.channel, "Channel from 0 (default the mean of all)");
    command->add_option("--batch", options->batch, "A JSON list of what to measure");
    command->add_flag("--json", options->json, "One JSON object a line");
    command->add_flag("--explain", options->explain, "Partial by partial what was used");
    command->callback([options, &exitCode] { exitCode = measure(*options); });
}

} // namespace quillbench::cli
