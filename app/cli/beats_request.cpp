#include "app/cli/beats_request.hpp"

#include "app/cli/measure_request.hpp"
#include "core/support/excerpt.hpp"

#include <cmath>

namespace quillbench::cli {

namespace {

/// Further from every interval of the list than this is none of them.
constexpr double kFurthestSemitones = 0.6;

constexpr double kFurthestLower = 250.0; // cents

/// Target of one of the two strings, from its frequency or from its key and choir.
Result<Hertz> targetOf(const char* name,
                       const std::optional<std::string>& note,
                       const std::optional<double>& hz,
                       const std::string& choir,
                       const BeatsQuestion& question) {
    Hertz target;
    if (hz) {
        target = Hertz(*hz);
    } else if (note) {
        const auto parsed = parseNote(*note);
        if (!parsed) {
            return Unexpected<Error>(parsed.error());
        }
        const auto ratio = choirRatio(choir);
        if (!ratio) {
            return Unexpected<Error>(ratio.error());
        }
        const auto pitch = eightFootPitch(*parsed, question.a4, question.temperament);
        if (!pitch) {
            return Unexpected<Error>(pitch.error());
        }
        target = *pitch * *ratio;
    } else {
        return wrong(std::string("say which string is the ") + name + " one: --" + name +
                     " NOTE, or " + name + "_hz in a batch");
    }
    const std::string which = std::string("the ") + name + " target";
    if (const auto allowed = checkTarget(which.c_str(), target); !allowed) {
        return Unexpected<Error>(allowed.error());
    }
    return target;
}

Result<const Interval*> intervalFor(const BeatsQuestion& question, Hertz lower, Hertz upper) {
    if (question.interval) {
        const Interval* found = findInterval(*question.interval);
        if (found == nullptr) {
            return wrong(
                "interval '" + excerpt(*question.interval) +
                "' is not known: unison, minor-third, major-third, fourth, fifth, "
                "minor-sixth, major-sixth, octave, minor-tenth, tenth, twelfth, fifteenth");
        }
        return found;
    }
    const double semitones = interval(lower, upper).value() / 100.0;
    const Interval* best = &intervals().front();
    for (const Interval& candidate : intervals()) {
        if (std::abs(candidate.semitones - semitones) < std::abs(best->semitones - semitones)) {
            best = &candidate;
        }
    }
    if (std::abs(best->semitones - semitones) > kFurthestSemitones) {
        return wrong("the two strings lie " + plain(semitones) +
                     " semitones apart, which is no interval that is tuned by beats; name one with "
                     "--interval");
    }
    return best;
}

Result<void> checkAll(const BeatsQuestion& question) {
    if (auto shared = checkRanges(question); !shared) {
        return shared;
    }
    if (question.lowerCents.has_value() != question.lowerU.has_value()) {
        return wrong("--lower-cents and --lower-u go together");
    }
    if (question.lowerU && !(*question.lowerU > 0.0 && *question.lowerU <= 50.0)) {
        return wrong("lower-u is " + plain(*question.lowerU) +
                     ", it has to be above 0, up to 50 cents");
    }
    if (question.lowerCents && !(std::abs(*question.lowerCents) <= kFurthestLower)) {
        return wrong("lower-cents is " + plain(*question.lowerCents) +
                     ", it has to be -250 to 250 cents from the lower target");
    }
    if (auto from = checkPlace("alone-from", question.aloneFrom.value_or(0.0)); !from) {
        return from;
    }
    return checkPlace("alone-to", question.aloneTo.value_or(0.0));
}

} // namespace

Result<BeatsRequest> understand(const BeatsQuestion& question) {
    const auto ranges = checkAll(question);
    if (!ranges) {
        return Unexpected<Error>(ranges.error());
    }
    const auto lower =
        targetOf("lower", question.lower, question.lowerHz, question.lowerChoir, question);
    if (!lower) {
        return Unexpected<Error>(lower.error());
    }
    BeatsRequest request;
    request.lower = *lower;
    const bool toBeDerived = !question.upper && !question.upperHz && question.interval;
    if (toBeDerived) {
        const Interval* named = findInterval(*question.interval);
        if (named != nullptr) {
            request.upper = request.lower * (static_cast<double>(named->pair.ofLower) /
                                             static_cast<double>(named->pair.ofUpper));
        }
    }
    if (!toBeDerived || request.upper.value() <= 0.0) {
        const auto upper =
            targetOf("upper", question.upper, question.upperHz, question.upperChoir, question);
        if (!upper) {
            return Unexpected<Error>(upper.error());
        }
        request.upper = *upper;
    }
    const auto which = intervalFor(question, request.lower, request.upper);
    if (!which) {
        return Unexpected<Error>(which.error());
    }
    request.interval = *which;
    request.target = beatRate(request.interval->pair, request.lower, request.upper);
    return request;
}

std::vector<std::string> unknownBeatsFields(const BatchRow& row) {
    return row.unknownFields({"id",          "file",        "lower",    "upper",      "lower_choir",
                              "upper_choir", "lower_hz",    "upper_hz", "interval",   "a4",
                              "temperament", "range_cents", "alone",    "alone_from", "alone_to",
                              "lower_cents", "lower_u",     "from",     "window",     "channel"});
}

Result<BeatsQuestion> beatsQuestionOf(const BatchRow& row) {
    BeatsQuestion question;
    RowReader reader(row);
    reader.text("lower", question.lower);
    reader.text("upper", question.upper);
    reader.text("lower_choir", question.lowerChoir);
    reader.text("upper_choir", question.upperChoir);
    reader.number("lower_hz", question.lowerHz);
    reader.number("upper_hz", question.upperHz);
    reader.text("interval", question.interval);
    reader.text("alone", question.alone);
    reader.number("alone_from", question.aloneFrom);
    reader.number("alone_to", question.aloneTo);
    reader.number("lower_cents", question.lowerCents);
    reader.number("lower_u", question.lowerU);
    if (const auto read = readRow(row, reader, question); !read) {
        return Unexpected<Error>(read.error());
    }
    return question;
}

} // namespace quillbench::cli
