#include "app/cli/beats_report.hpp"

#include "app/cli/svg_drawing.hpp"
#include "app/formats/json_fields.hpp"

#include <nlohmann/json.hpp>

#include <cmath>

namespace quillbench::cli {

using nlohmann::ordered_json;

namespace {

constexpr int kBeatsSchema = 1;

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

} // namespace

nlohmann::ordered_json beatsJson(const std::optional<std::string>& id,
                                 const BeatsQuestion& question,
                                 const BeatsLine& line) {
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

nlohmann::ordered_json beatsProblemJson(const std::optional<std::string>& id,
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

std::string beatsTable(const BeatsQuestion& question, const BeatsLine& line) {
    const BeatReading& reading = line.reading;
    std::string text = question.file + ", " + std::string(line.request->interval->name);
    if (line.window) {
        text += formatted(", %.2f s", *line.window);
    }
    if (!reading.found) {
        return text + ": nothing that beats was heard\n";
    }
    text += formatted(": %.3f ±%.3f beats a second, %s",
                      std::abs(reading.beat.perSecond()),
                      reading.beatUncertainty,
                      directionName(reading.direction));
    if (reading.direction != BeatDirection::Unknown) {
        text += formatted(" (%+.2f ±%.2f cents)", reading.width.value(), reading.widthUncertainty);
    }
    return text + formatted("; wanted %.3f %s%s\n",
                            std::abs(line.request->target.perSecond()),
                            beatDirection(line.request->target),
                            reading.weak ? " — weak" : "");
}

std::string beatsExplanation(const BeatsLine& line) {
    const BeatReading& reading = line.reading;
    const Interval& interval = *line.request->interval;
    std::string text = "  partials   hertz     beats a second   at the lowest pair   swing\n";
    for (const MeetingPartials& pair : reading.coincident) {
        const double times =
            static_cast<double>(pair.lowerPartial) / static_cast<double>(interval.pair.ofLower);
        text += formatted("  %3d : %-3d %9.2f %14.3f %18.3f %11.1f dB\n",
                          pair.lowerPartial,
                          pair.upperPartial,
                          pair.frequency.value(),
                          std::abs(pair.beat.perSecond()),
                          std::abs(pair.beat.perSecond()) / times,
                          pair.depthDb);
    }
    switch (line.known) {
    case LowerKnown::HeardAlone:
        text += "  the side: from the lower string as it was heard alone\n";
        break;
    case LowerKnown::Kept:
        text += "  the side: from the kept reading of the lower string\n";
        break;
    case LowerKnown::No:
        text += interval.pair.ofUpper == 1 && interval.pair.ofLower == 1
                    ? "  the side: not known; hear the lower string alone first (--alone)\n"
                    : "  the side: from partials that the two strings do not share\n";
        break;
    }
    if (!reading.labelsSure) {
        text += "  which line belongs to which string is not sure\n";
    }
    if (reading.lowerOwnBeat) {
        text += formatted("  the lower string beats by itself, %.2f a second: no unison can be "
                          "cleaner than that\n",
                          std::abs(*reading.lowerOwnBeat));
    }
    if (reading.weak) {
        text += "  weak: the beat is known to no better than a tenth\n";
    }
    return text;
}

} // namespace quillbench::cli
