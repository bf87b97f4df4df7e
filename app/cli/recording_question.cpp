#include "app/cli/recording_question.hpp"

#include <array>
#include <cstdio>

namespace quillbench::cli {

namespace {

constexpr double kLowestTarget = 15.0;
constexpr double kHighestTarget = 4000.0;
constexpr double kLatestPlace = 1e6; // seconds; longer recordings are cut by hand

} // namespace

Unexpected<Error> wrong(const std::string& text) {
    return failure(ErrorCode::BadArgument, text);
}

std::string plain(double number) {
    std::array<char, 32> text{};
    std::snprintf(text.data(), text.size(), "%g", number);
    return text.data();
}

Result<void> readRow(const BatchRow& row, RowReader& reader, RecordingQuestion& into) {
    reader.text("file", into.file);
    reader.number("a4", into.a4);
    reader.text("temperament", into.temperament);
    reader.number("range_cents", into.rangeCents);
    reader.number("from", into.from);
    reader.numbers("window", into.windows);
    reader.channel(into.channel);
    if (reader.problem()) {
        return Unexpected<Error>(*reader.problem());
    }
    if (into.file.empty()) {
        return failure(ErrorCode::UnreadableInput, row.place() + ": file is missing");
    }
    return {};
}

void addRecordingOptions(CLI::App& command, RecordingQuestion& question) {
    command.add_option("--a4", question.a4, "Pitch of A4 in hertz (default 415)");
    command.add_option("--temperament", question.temperament, "Name (default equal)");
    command.add_option("--range-cents", question.rangeCents, "How far to look (default 60)");
    command.add_option("--from", question.from, "Seconds into the recording");
    command.add_option(
        "--window", question.windows, "Seconds after the (later) pluck that may be used");
    command.add_option("--channel", question.channel, "Channel from 0 (default the mean of all)");
}

Result<void> checkRanges(const RecordingQuestion& question) {
    if (!(question.a4 >= 300.0 && question.a4 <= 600.0)) {
        return wrong("a4 is " + plain(question.a4) + ", it has to be 300 to 600 Hz");
    }
    if (!(question.rangeCents >= 5.0 && question.rangeCents <= 250.0)) {
        return wrong("range is " + plain(question.rangeCents) +
                     " cents, it has to be 5 to 250 cents");
    }
    if (auto from = checkPlace("from", question.from); !from) {
        return from;
    }
    for (const double window : question.windows) {
        if (!(window > 0.0 && window <= 60.0)) {
            return wrong("window is " + plain(window) + ", it has to be above 0, up to 60 seconds");
        }
    }
    return {};
}

Result<void> checkPlace(const char* which, double seconds) {
    if (seconds >= 0.0 && seconds <= kLatestPlace) {
        return {};
    }
    return wrong(std::string(which) + " is " + plain(seconds) +
                 ", it has to be 0 to 1000000 seconds");
}

Result<void> checkTarget(const char* which, Hertz target) {
    if (target.value() >= kLowestTarget && target.value() <= kHighestTarget) {
        return {};
    }
    return wrong(std::string(which) + " is " + plain(target.value()) +
                 " Hz, it has to be 15 to 4000 Hz");
}

} // namespace quillbench::cli
