#include "app/cli/measure_request.hpp"

#include "core/pitch/note_names.hpp"
#include "core/support/excerpt.hpp"
#include "core/temperament/catalogue.hpp"

namespace quillbench::cli {

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
    return wrong("choir '" + excerpt(choir) + "' is not known: 8, 8b, 4 or 16");
}

Result<Hertz> eightFootPitch(const Note& note, double a4, const std::string& temperament) {
    const Temperament* found = findTemperament(temperament);
    if (found == nullptr) {
        return wrong("temperament '" + excerpt(temperament) +
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
    if (request.target) {
        if (const auto allowed = checkTarget("the target", *request.target); !allowed) {
            return Unexpected<Error>(allowed.error());
        }
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

Result<MeasureQuestion> measureQuestionOf(const BatchRow& row) {
    MeasureQuestion question;
    RowReader reader(row);
    reader.text("note", question.note);
    reader.text("choir", question.choir);
    reader.number("target_hz", question.targetHz);
    reader.text("also", question.also);
    if (const auto read = readRow(row, reader, question); !read) {
        return Unexpected<Error>(read.error());
    }
    return question;
}

} // namespace quillbench::cli
