#include "app/cli/beats_plot.hpp"
#include "app/cli/beats_report.hpp"
#include "app/cli/beats_request.hpp"
#include "app/cli/recording_job.hpp"
#include "app/formats/text_file.hpp"
#include "audio/sound_file.hpp"
#include "core/dsp/beat_estimator.hpp"
#include "core/dsp/beat_follower.hpp"
#include "core/dsp/comb_onset.hpp"
#include "core/dsp/single_string.hpp"
#include "core/dsp/tied_pair/tied_pair.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <filesystem>
#include <memory>
#include <span>

namespace quillbench::cli {

namespace {

/// Two strings plucked by one hand speak within this time.
constexpr Seconds kPluckedTogether{0.22};
/// What is known after a longer look does not change any more.
constexpr double kLongest = 2.5;

struct BeatsOptions {
    BeatsQuestion question;
    std::string batch;
    bool json = false;
    bool explain = false;
    std::string plot;
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
    const std::vector<double> samples = widened({part.begin(), part.end()});
    const Seconds at = sound->rate.duration(*pluck - FrameIndex(0));
    const int partial = request.interval->pair.ofLower;
    auto known = hearAlone(samples,
                           sound->rate,
                           at,
                           to,
                           request.lower,
                           Cents(question.rangeCents),
                           meetingOnes(partial));
    if (known) {
        known->record = recordAlone(samples, sound->rate, at, to, *known, partial);
    }
    return known;
}

/// Where noise hides the attacks: the instants at which the partials of either string rise most, if together.
std::optional<std::pair<Seconds, Seconds>>
risesOf(const Sound& sound, const BeatsQuestion& question, const BeatsRequest& request) {
    const FrameIndex from(sound.rate.frames(Seconds(question.from)).value());
    ListeningFor what;
    what.range = Cents(question.rangeCents);
    what.target = request.lower;
    const auto lower = loudestRise(what, sound.samples, sound.rate, from);
    what.target = request.upper;
    const auto upper = loudestRise(what, sound.samples, sound.rate, from);
    if (!lower || !upper) {
        return std::nullopt;
    }
    const Seconds first = sound.rate.duration(std::min(*lower, *upper) - FrameIndex(0));
    const Seconds last = sound.rate.duration(std::max(*lower, *upper) - FrameIndex(0));
    if (last - first >= kPluckedTogether) {
        return std::nullopt;
    }
    return std::pair(first, last);
}

/// First and last pluck of the pair; nothing where nothing was plucked.
std::optional<std::pair<Seconds, Seconds>>
plucksOf(const Sound& sound, const BeatsQuestion& question, const BeatsRequest& request) {
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
    return plucks ? plucks : risesOf(sound, question, request);
}

/// The loudness of the meeting partials from the later pluck to the end of the window.
std::vector<MeetingTrace>
tracesOf(const Sound& sound, const PairQuestion& pair, Seconds pluck, Seconds stop) {
    BeatFollower follower(sound.rate);
    FollowedPair followed;
    followed.lowerPartial = pair.lowerPartial;
    followed.upperPartial = pair.upperPartial;
    followed.lower = pair.lower ? pair.lower->sustain : pair.lowerTarget;
    followed.inharmonicity = pair.lower ? pair.lower->inharmonicity : 0.0;
    followed.lowerDeviation = pair.lower ? pair.lower->deviation : pair.range;
    followed.lowerKnown = pair.lower.has_value();
    follower.begin(followed);
    const auto at = [&](Seconds time) {
        return std::min(sound.samples.size(),
                        static_cast<std::size_t>(time.count() * sound.rate.hz()));
    };
    follower.push(std::span(sound.samples).subspan(at(pluck), at(stop) - at(pluck)));
    std::vector<MeetingTrace> traces(follower.pairs());
    for (std::size_t k = 0; k < traces.size(); ++k) {
        traces[k].lowerPartial = pair.lowerPartial * static_cast<int>(k + 1);
        traces[k].upperPartial = pair.upperPartial * static_cast<int>(k + 1);
        for (std::size_t i = 0; i < follower.points(); ++i) {
            traces[k].points.emplace_back(follower.timeOf(i).count(), follower.level(k, i).value());
        }
    }
    return traces;
}

/// All windows of one question. **Errors** as reading the files and understanding the question.
Result<std::vector<BeatsLine>>
answer(const BeatsQuestion& question, const std::filesystem::path& folder, bool traced) {
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
    const auto plucks = plucksOf(*sound, question, *request);
    if (plucks) {
        pair.firstPluck = plucks->first;
    }
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
        line.known =
            *known ? (question.alone ? LowerKnown::HeardAlone : LowerKnown::Kept) : LowerKnown::No;
        if (plucks && traced && i + 1 >= question.windows.size()) {
            const double stop =
                std::min(length, plucks->second.count() + line.window.value_or(kLongest));
            line.traces = tracesOf(*sound, pair, plucks->second, Seconds(stop));
        }
        if (question.alone && !*known) {
            line.warnings.emplace_back("nothing heard in the recording of the lower string alone");
        }
        lines.push_back(std::move(line));
    }
    return lines;
}

/// See recording_job.hpp.
struct BeatsJob {
    static constexpr const char* kName = "beats";
    using Question = BeatsQuestion;
    using Line = BeatsLine;

    bool json = false;
    bool explain = false;
    std::string plot; ///< file of the picture; empty for none

    static std::vector<std::string> unknownFields(const BatchRow& row) {
        return unknownBeatsFields(row);
    }

    static Result<Question> questionOf(const BatchRow& row) { return beatsQuestionOf(row); }

    [[nodiscard]] Result<std::vector<Line>> answer(const Question& question,
                                                   const std::optional<std::string>& /*id*/,
                                                   const std::filesystem::path& folder) const {
        auto lines = cli::answer(question, folder, !plot.empty());
        if (lines && !plot.empty() && !lines->empty() && lines->back().reading.found) {
            if (const auto written = writeTextFile(plot, beatsPlot(question, lines->back()));
                !written) {
                return failure(ErrorCode::BadArgument, written.error().text);
            }
        }
        return lines;
    }

    static bool holdsSomething(const Line& line) { return line.reading.found; }

    void
    print(const std::optional<std::string>& id, const Question& question, const Line& line) const {
        const std::string text = json ? formatJsonLine(beatsJson(id, question, line)) + "\n"
                                      : beatsTable(question, line);
        std::fputs(text.c_str(), stdout);
        if (explain && holdsSomething(line)) {
            std::fputs(beatsExplanation(line).c_str(), json ? stderr : stdout);
        }
        for (const std::string& warning : line.warnings) {
            complain(kName, question.file + ": " + warning);
        }
    }

    void printProblem(const std::optional<std::string>& id,
                      const Question& question,
                      std::optional<double> window,
                      const std::string& text) const {
        if (json) {
            std::puts(formatJsonLine(beatsProblemJson(id, question.file, window, text)).c_str());
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
    command->add_flag("--explain", options->explain, "Pair by pair of the partials that meet");
    command->add_option("--plot", options->plot, "Draw the breath of the pair into this SVG file");
    addExamples(
        *command,
        {"beats pair.wav --lower C4 --upper G4 --from 3.8 --explain --plot pair.svg",
         "beats pair.wav --lower C4 --upper G4 --from 3.8 --alone pair.wav --alone-to 3.5"});
    command->callback([options, &exitCode] {
        if (!options->batch.empty() && !options->plot.empty()) {
            complain(BeatsJob::kName, "--plot draws one reading: give one FILE, not --batch");
            exitCode = kWrongCommandLine;
            return;
        }
        exitCode = run(BeatsJob{options->json, options->explain, options->plot},
                       options->question,
                       options->batch);
    });
}

} // namespace quillbench::cli
