#include "app/cli/plucks_request.hpp"

#include "app/cli/measure_request.hpp"
#include "app/cli/recording_question.hpp"
#include "app/cli/row_reader.hpp"
#include "core/dsp/stagger/pluck_hypothesis.hpp"
#include "core/pitch/note_names.hpp"
#include "core/support/excerpt.hpp"

#include <algorithm>
#include <sstream>

namespace quillbench::cli {

namespace {

constexpr double kLowestKey = 15.0;
constexpr double kHighestKey = 4000.0;

} // namespace

std::vector<std::string> splitAtCommas(const std::string& text) {
    std::vector<std::string> parts;
    std::istringstream in(text);
    for (std::string part; std::getline(in, part, ',');) {
        const auto first = part.find_first_not_of(' ');
        if (first != std::string::npos) {
            parts.push_back(part.substr(first, part.find_last_not_of(' ') - first + 1));
        }
    }
    return parts;
}

Result<Hertz> keyPitch(const std::optional<std::string>& note,
                       bool helmholtz,
                       const std::optional<double>& targetHz,
                       double a4,
                       const std::string& temperament) {
    if (!(a4 >= 300.0 && a4 <= 600.0)) {
        return wrong("a4 is " + plain(a4) + ", it has to be 300 to 600 Hz");
    }
    Hertz key;
    if (note) {
        const auto parsed = helmholtz ? parseHelmholtz(*note) : parseNote(*note);
        if (!parsed) {
            return Unexpected<Error>(parsed.error());
        }
        const auto pitch = eightFootPitch(*parsed, a4, temperament);
        if (!pitch) {
            return Unexpected<Error>(pitch.error());
        }
        key = *pitch;
    } else if (!targetHz) {
        return wrong("say which key went down: --note NOTE, or --target-hz with its 8' pitch");
    }
    if (targetHz) {
        key = Hertz(*targetHz);
    }
    if (!(key.value() >= kLowestKey && key.value() <= kHighestKey)) {
        return wrong("the key's pitch is " + plain(key.value()) +
                     " Hz, it has to be 15 to 4000 Hz");
    }
    return key;
}

Result<PlucksRequest> understand(const PlucksQuestion& question) {
    PlucksRequest request;
    const auto key = keyPitch(
        question.note, question.helmholtz, question.targetHz, question.a4, question.temperament);
    if (!key) {
        return Unexpected<Error>(key.error());
    }
    request.key = *key;
    if (question.choirs.empty()) {
        return wrong("say which registers are on, such as --choirs 8,8b,4");
    }
    if (question.choirs.size() > kMostChoirsOfKey) {
        return wrong("choirs names " + std::to_string(question.choirs.size()) +
                     " registers, a key has at most 4");
    }
    for (std::size_t i = 0; i < question.choirs.size(); ++i) {
        const auto ratio = choirRatio(question.choirs[i]);
        if (!ratio) {
            return Unexpected<Error>(ratio.error());
        }
        request.ratios.push_back(*ratio);
        const auto before = question.choirs.begin() + static_cast<std::ptrdiff_t>(i);
        if (std::find(question.choirs.begin(), before, question.choirs[i]) != before) {
            return wrong("choirs names " + excerpt(question.choirs[i]) + " twice");
        }
    }
    for (const auto& [choir, file] : question.solos) {
        if (std::find(question.choirs.begin(), question.choirs.end(), choir) ==
            question.choirs.end()) {
            return wrong("a solo is given for choir " + excerpt(choir) +
                         ", which choirs does not name");
        }
    }
    return request;
}

std::vector<std::string> unknownPlucksFields(const BatchRow& row) {
    return row.unknownFields({"id",
                              "file",
                              "note",
                              "target_hz",
                              "range_cents",
                              "choirs",
                              "solos",
                              "a4",
                              "temperament",
                              "channel"});
}

Result<PlucksQuestion> plucksQuestionOf(const BatchRow& row) {
    PlucksQuestion question;
    RowReader reader(row);
    std::vector<std::string> choirs;
    reader.text("file", question.file);
    reader.text("note", question.note);
    reader.number("target_hz", question.targetHz);
    reader.textList("choirs", choirs);
    reader.texts("solos", question.solos);
    reader.number("a4", question.a4);
    reader.text("temperament", question.temperament);
    reader.channel(question.channel);
    if (reader.problem()) {
        return Unexpected<Error>(*reader.problem());
    }
    if (question.file.empty()) {
        return failure(ErrorCode::UnreadableInput, row.place() + ": file is missing");
    }
    for (const std::string& listed : choirs) {
        for (const std::string& choir : splitAtCommas(listed)) {
            question.choirs.push_back(choir);
        }
    }
    return question;
}

} // namespace quillbench::cli
