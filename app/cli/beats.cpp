#include "app/cli/beats_request.hpp"
#include "app/cli/recording_job.hpp"
#include "app/formats/json_fields.hpp"
#include "audio/sound_file.hpp"
#include "core/dsp/beat_estimator.hpp"
#include "core/dsp/single_string.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <filesystem>
#include <memory>
#include <span>

namespace quillbench::cli {

namespace {

using nlohmann::ordered_json;

constexpr int kBeatsSchema = 1;
/// Two strings plucked by one hand speak within this time.
constexpr Seconds kPluckedTogether{0.22};
/// What is known after a longer look does not change any more.
constexpr double kLongest = 2.5;

struct BeatsOptions {
    BeatsQuestion question;
    std::string batch;
    bool json = false;
};

struct BeatsLine {
    std::optional<double> window;
    std::optional<BeatsRequest> request;
    BeatReading reading;
    std::vector<std::string> warnings;
};

std::vector<double> widened(const std::vector<float>& samples) {
    return {samples.begin(), samples.end()};
}

/// The lower string as it was heard alone before, or as a kept reading says; nothing where neither is given or
/// nothing was heard.
Result<std::optional<KnownString>> lowerKnown(const BeatsQuestion& question,
                                              const BeatsRequest& request,
                                              const std::filesystem::path& folder) {
    if (question.lowerCents) {
        return std::optional<KnownString>(keptString(
            transpose(request.lower, Cents(*question.lowerCents)), Cents(*question.lowerU)));
    }
    if (!question.alone) {
        return std::optional<KnownString>();
    }
    const auto sound = readSound(placeOf(*question.alone, folder), question.channel);
    if (!sound) {
        return Unexpected<Error>(sound.error());
    }
    const double length = static_cast<double>(sound->samples.size()) / sound->rate.hz();
    const Seconds from(std::clamp(question.aloneFrom.value_or(0.0), 0.0, length));
    const Seconds to(std::clamp(question.aloneTo.value_or(length), from.count(), length));
    const auto end = static_cast<std::size_t>(to.count() * sound->rate.hz());
    const std::span<const float> part(sound->samples.data(), std::min(end, sound->samples.size()));
    const auto onsets = onsetsIn(part, sound->rate);
    ListeningFor what;
    what.target = request.lower;
    what.range = Cents(question.rangeCents);
    const auto pluck =
        firstPluckOf(what, part, sound->rate, onsets, FrameIndex(sound->rate.frames(from).value()));
    if (!pluck) {
        return std::optional<KnownString>();
    }
    const int closely[] = {request.interval->pair.ofLower};
    return hearAlone(widened({part.begin(), part.end()}),
                     sound->rate,
                     sound->rate.duration(*pluck - FrameIndex(0)),
                     to,
                     request.lower,
                     Cents(question.rangeCents),
                     closely);
}

/// First and last pluck of the pair; nothing where nothing was plucked.
std::optional<std::pair<Seconds, Seconds>> plucksOf(const Sound& sound,
                                                    const BeatsQuestion& question) {
    std::optional<std::pair<Seconds, Seconds>> plucks;
    for (const FrameIndex onset : onsetsIn(sound.samples, sound.rate)) {
        const Seconds at = sound.rate.duration(onset - FrameIndex(0));
        if (at.count() < question.from) {
            continue;
        }
        if (!plucks) {
            plucks = {at, at};
        } else if (at - plucks->first < kPluckedTogether) {
            plucks->second = at;
        }
    }
    return plucks;
}

/// All windows of one question. **Errors** as reading the files and understanding the question.
Result<std::vector<BeatsLine>> answer(const BeatsQuestion& question,
                                      const std::filesystem::path& folder) {
    const auto request = understand(question);
    if (!request) {
        return Unexpected<Error>(request.error());
    }
    const auto sound = readSound(placeOf(question.file, folder), question.channel);
    if (!sound) {
        return Unexpected<Error>(sound.error());
    }
    const auto known = lowerKnown(question, *request, folder);
    if (!known) {
        return Unexpected<Error>(known.error());
    }
    PairQuestion pair;
    pair.lowerPartial = request->interval->pair.ofLower;
    pair.upperPartial = request->interval->pair.ofUpper;
    pair.lowerTarget = request->lower;
    pair.upperTarget = request->upper;
    pair.range = Cents(question.rangeCents);
    pair.lower = *known;
    const auto plucks = plucksOf(*sound, question);
    const std::vector<double> samples = widened(sound->samples);
    const double length = static_cast<double>(samples.size()) / sound->rate.hz();
    std::vector<BeatsLine> lines;
    for (std::size_t i = 0; i < std::max<std::size_t>(1, question.windows.size()); ++i) {
        BeatsLine line;
        line.request = *request;
        if (i < question.windows.size()) {
            line.window = question.windows[i];
        }
        if (plucks) {
            const double stop =
                std::min(length, plucks->second.count() + line.window.value_or(kLongest));
            line.reading =
                hearPair(samples, sound->rate, plucks->second, plucks->second, Seconds(stop), pair);
        }
        if (question.alone && !*known) {
            line.warnings.emplace_back("nothing heard in the recording of the lower string alone");
        }
        lines.push_back(std::move(line));
    }
    return lines;
}

const char* directionName(BeatDirection direction) {
    switch (direction) {
    case BeatDirection::Wide:
        return "wide";
    case BeatDirection::Narrow:
        return "narrow";
    case BeatDirection::Pure:
        return "pure";
    case BeatDirection::Unknown:
        break;
    }
    return "unknown";
}

const char* beatDirection(BeatRate beat) {
    return beat.perSecond() > 0.0 ? "wide" : beat.perSecond() < 0.0 ? "narrow" : "pure";
}

ordered_json numberOrNull(const std::optional<double>& number) {
    return number ? ordered_json(*number) : ordered_json(nullptr);
}

ordered_json
toJson(const std::optional<std::string>& id, const BeatsQuestion& question, const BeatsLine& line) {
    const BeatReading& reading = line.reading;
    ordered_json out;
    out["schema"] = kBeatsSchema;
    out["kind"] = "beats";
    out["id"] = id ? ordered_json(*id) : ordered_json(nullptr);
    out["file"] = question.file;
    out["status"] = !reading.found ? "nothing" : reading.weak ? "weak" : "ok";
    out["interval"] = line.request->interval->id;
    out["ratio"] = {line.request->interval->pair.ofLower, line.request->interval->pair.ofUpper};
    out["window_s"] = numberOrNull(line.window);
    const bool found = reading.found;
    const bool signedOne = found && reading.direction != BeatDirection::Unknown;
    out["beat_hz"] = found ? ordered_json(std::abs(reading.beat.perSecond())) : nullptr;
    out["beat_hz_u"] = found ? ordered_json(reading.beatUncertainty) : nullptr;
    out["direction"] = directionName(reading.direction);
    out["width_cents"] = signedOne ? ordered_json(reading.width.value()) : nullptr;
    out["width_cents_u"] = signedOne ? ordered_json(reading.widthUncertainty) : nullptr;
    out["target_beat_hz"] = std::abs(line.request->target.perSecond());
    out["target_direction"] = beatDirection(line.request->target);
    out["coincident"] = ordered_json::array();
    for (const MeetingPartials& pair : reading.coincident) {
        out["coincident"].push_back({{"lower_n", pair.lowerPartial},
                                     {"upper_n", pair.upperPartial},
                                     {"hz", pair.frequency.value()},
                                     {"beat_hz", std::abs(pair.beat.perSecond())},
                                     {"depth_db", pair.depthDb}});
    }
    out["own_beat_hz"] = numberOrNull(reading.lowerOwnBeat);
    out["warnings"] = line.warnings;
    return out;
}

ordered_json problemJson(const std::optional<std::string>& id,
                         const std::string& file,
                         const std::optional<double>& window,
                         const std::string& text) {
    ordered_json out;
    out["schema"] = kBeatsSchema;
    out["kind"] = "beats";
    out["id"] = id ? ordered_json(*id) : ordered_json(nullptr);
    out["file"] = file;
    out["status"] = "error";
    out["window_s"] = numberOrNull(window);
    out["error"] = text;
    return out;
}

void printTable(const BeatsQuestion& question, const BeatsLine& line) {
    const BeatReading& reading = line.reading;
    std::printf("%s, %s", question.file.c_str(), std::string(line.request->interval->name).c_str());
    if (line.window) {
        std::printf(", %.2f s", *line.window);
    }
    if (!reading.found) {
        std::printf(": nothing that beats was heard\n");
        return;
    }
    std::printf(": %.3f ±%.3f beats a second, %s",
                std::abs(reading.beat.perSecond()),
                reading.beatUncertainty,
                directionName(reading.direction));
    if (reading.direction != BeatDirection::Unknown) {
        std::printf(" (%+.2f ±%.2f cents)", reading.width.value(), reading.widthUncertainty);
    }
    std::printf("; wanted %.3f %s%s\n",
                std::abs(line.request->target.perSecond()),
                beatDirection(line.request->target),
                reading.weak ? " — weak" : "");
}

void print(const std::optional<std::string>& id,
           const BeatsQuestion& question,
           const BeatsLine& line,
           bool json) {
    if (json) {
        std::puts(formatJsonLine(toJson(id, question, line)).c_str());
    } else {
        printTable(question, line);
    }
    for (const std::string& warning : line.warnings) {
        complain("beats", question.file + ": " + warning);
    }
}

/// See recording_job.hpp.
struct BeatsJob {
    static constexpr const char* kName = "beats";
    using Question = BeatsQuestion;
    using Line = BeatsLine;

    bool json = false;

    static std::vector<std::string> unknownFields(const BatchRow& row) {
        return unknownBeatsFields(row);
    }

    static Result<Question> questionOf(const BatchRow& row) { return beatsQuestionOf(row); }

    static Result<std::vector<Line>> answer(const Question& question,
                                            const std::optional<std::string>& /*id*/,
                                            const std::filesystem::path& folder) {
        return cli::answer(question, folder);
    }

    static bool holdsSomething(const Line& line) { return line.reading.found; }

    void
    print(const std::optional<std::string>& id, const Question& question, const Line& line) const {
        cli::print(id, question, line, json);
    }

    void printProblem(const std::optional<std::string>& id,
                      const Question& question,
                      std::optional<double> window,
                      const std::string& text) const {
        if (json) {
            std::puts(formatJsonLine(problemJson(id, question.file, window, text)).c_str());
        }
    }
};

} // namespace

void addBeats(CLI::App& app, int& exitCode) {
    const auto options = std::make_shared<BeatsOptions>();
    BeatsQuestion& question = options->question;
    CLI::App* command = app.add_subcommand("beats", "The beat of two strings in a recording");
    command->add_option("file", question.file, "Recording: WAV, FLAC, AIFF, Ogg");
    command->add_option("--lower", question.lower, "Key of the lower string, such as C4");
    command->add_option("--upper", question.upper, "Key of the upper string, such as G4");
    command->add_option("--lower-choir", question.lowerChoir, "8, 8b, 4 or 16 (default 8)");
    command->add_option("--upper-choir", question.upperChoir, "8, 8b, 4 or 16 (default 8)");
    command->add_option("--interval", question.interval, "Name, such as fifth or minor-third");
    command->add_option("--alone", question.alone, "Recording of the lower string by itself");
    command->add_option("--alone-from", question.aloneFrom, "Seconds into that recording");
    command->add_option("--alone-to", question.aloneTo, "Seconds into that recording");
    command->add_option(
        "--lower-cents", question.lowerCents, "A kept reading of the lower string instead");
    command->add_option("--lower-u", question.lowerU, "Its uncertainty in cents");
    addRecordingOptions(*command, question);
    command->add_option("--batch", options->batch, "A JSON list of pairs");
    command->add_flag("--json", options->json, "One JSON object a line");
    command->callback([options, &exitCode] {
        exitCode = run(BeatsJob{options->json}, options->question, options->batch);
    });
}

} // namespace quillbench::cli
