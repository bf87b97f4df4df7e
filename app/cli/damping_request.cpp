#include "app/cli/damping_request.hpp"

#include "app/cli/measure_request.hpp"
#include "app/cli/plucks_request.hpp"
#include "app/cli/row_reader.hpp"

namespace quillbench::cli {

std::vector<std::string> unknownDampingFields(const BatchRow& row) {
    return row.unknownFields({"id",
                              "file",
                              "note",
                              "choir",
                              "target_hz",
                              "range_cents",
                              "a4",
                              "temperament",
                              "channel"});
}

Result<DampingQuestion> dampingQuestionOf(const BatchRow& row) {
    DampingQuestion question;
    RowReader reader(row);
    reader.text("file", question.file);
    reader.text("note", question.note);
    reader.text("choir", question.choir);
    reader.number("target_hz", question.targetHz);
    reader.number("a4", question.a4);
    reader.text("temperament", question.temperament);
    reader.channel(question.channel);
    if (reader.problem()) {
        return Unexpected<Error>(*reader.problem());
    }
    if (question.file.empty()) {
        return failure(ErrorCode::UnreadableInput, row.place() + ": file is missing");
    }
    return question;
}

Result<Hertz> understand(const DampingQuestion& question) {
    const auto ratio = choirRatio(question.choir);
    if (!ratio) {
        return Unexpected<Error>(ratio.error());
    }
    auto key = keyPitch(
        question.note, question.helmholtz, question.targetHz, question.a4, question.temperament);
    if (!key || question.targetHz) {
        return key;
    }
    const Hertz string = *key * *ratio;
    if (string.value() > 4000.0 || string.value() < 15.0) {
        return failure(ErrorCode::BadArgument,
                       "the string's pitch lies outside 15 to 4000 Hz; check note and choir");
    }
    return string;
}

} // namespace quillbench::cli
