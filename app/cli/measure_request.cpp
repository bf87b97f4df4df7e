#include "app/cli/measure_request.hpp"

#include "app/cli/row_reader.hpp"
#include "core/pitch/note_names.hpp"
#include "core/temperament/catalogue.hpp"

#include <cmath>

namespace quillbench::cli {

namespace {

constexpr double kLowestTarget = 15.0;
constexpr double kHighestTarget = 4000.0;

Unexpected<Error> wrong(const std::string& text) {
    return failure(ErrorCode::BadArgument, text);
}

std::string plain(double number) {
    char text[32];
    std::snprintf(text, sizeof text, "%g", number);
    return text;
}

Result<void> checkRanges(const MeasureQuestion& question) {
    if (!(question.a4 >= 300.0 && question.a4 <= 600.0)) {
        return wrong("a4 is " + plain(question.a4) + ", it has to be 300 to 600 Hz");
    }
    if (!(question.rangeCents >= 5.0 && question.rangeCents <= 250.0)) {
        return wrong("range is " + plain(question.rangeCents) +
                     " cents, it has to be 5 to 250 cents");
    }
    if (!(question.from >= 0.0) || !std::isfinite(question.from)) {
        return wrong("from is " + plain(question.from) + ", it has to be 0 seconds or more");
    }
    for (const double window : question.windows) {
        if (!(window > 0.0 && window <= 60.0)) {
            return wrong("window is " + plain(window) + ", it has to be above 0, up to 60 seconds");
        }
    }
    return {};
}

} // namespace

Result<double> choirRatio(const std::string& choir) {
    if (choir == "8" || choir == "8b") {
        return 1.0;
    }
    if (choir == "4") {
        return 2.0;
    }
    if (choir == "16") {
        return 0.5;
    }
    return wrong("choir '" + choir + "' is not known: 8, 8b, 4 or 16");
}

Result<Hertz> eightFootPitch(const Note& note, double a4, const std::string& temperament) {
    const Temperament* found = findTemperament(temperament);
    if (found == nullptr) {
        return wrong("temperament '" + temperament +
                     "' is not known (quillbench-cli temperament lists them)");
    }
    ReferencePitch reference;
    reference.hz = Hertz(a4);
    return pitchOf(*found, reference, note);
}

Result<MeasureRequest> understand(const MeasureQuestion& question) {
    const auto ranges = checkRanges(question);
    if (!ranges) {
        return Unexpected<Error>(ranges.error());
    }
    MeasureRequest request;
    const auto ratio = choirRatio(question.choir);
    if (!ratio) {
        return Unexpected<Error>(ratio.error());
    }
    if (question.note) {
        const auto note =
            question.helmholtz ? parseHelmholtz(*question.note) : parseNote(*question.note);
        if (!note) {
            return Unexpected<Error>(note.error());
        }
        const auto pitch = eightFootPitch(*note, question.a4, question.temperament);
        if (!pitch) {
            return Unexpected<Error>(pitch.error());
        }
        request.note = *note;
        request.target = *pitch * *ratio;
    }
    if (question.targetHz) {
        request.target = Hertz(*question.targetHz);
    }
    if (request.target &&
        !(request.target->value() >= kLowestTarget && request.target->value() <= kHighestTarget)) {
        return wrong("the target is " + plain(request.target->value()) +
                     " Hz, it has to be 15 to 4000 Hz");
    }
    if (question.also) {
        const auto other = choirRatio(*question.also);
        if (!other) {
            return Unexpected<Error>(other.error());
        }
        if (*question.also == question.choir) {
            return wrong("also names the choir that is measured: " + question.choir);
        }
        request.alsoRatio = *other / *ratio;
    }
    return request;
}

std::vector<std::string> unknownMeasureFields(const BatchRow& row) {
    return row.unknownFields({"id",
                              "file",
                              "note",
                              "choir",
                              "a4",
                              "temperament",
                              "target_hz",
                              "range_cents",
                              "also",
                              "from",
                              "window",
                              "channel"});
}

Result<MeasureQuestion> questionOf(const BatchRow& row) {
    MeasureQuestion question;
    RowReader reader(row);
    reader.text("file", question.file);
    reader.text("note", question.note);
    reader.text("choir", question.choir);
    reader.number("a4", question.a4);
    reader.text("temperament", question.temperament);
    reader.number("target_hz", question.targetHz);
    reader.number("range_cents", question.rangeCents);
    reader.text("also", question.also);
    reader.number("from", question.from);
    reader.numbers("window", question.windows);
    reader.channel(question.channel);
    if (reader.problem()) {
        return Unexpected<Error>(*reader.problem());
    }
    if (question.file.empty()) {
        return failure(ErrorCode::UnreadableInput, row.place() + ": file is missing");
    }
    return question;
}

} // namespace quillbench::cli
