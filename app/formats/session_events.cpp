#include "app/formats/session_events.hpp"

#include "app/formats/json_fields.hpp"

#include <array>
#include <cmath>

namespace quillbench {

namespace {

constexpr std::size_t kLongestEvent = std::size_t{1} << 20U; // bytes
constexpr Limits kAnyNumber{-1e12, 1e12};
constexpr Limits kIndices{0.0, 100000.0};
constexpr Limits kFrames{0.0, 9e15}; // exact in a double
constexpr Limits kBits{0.0, 4294967295.0};
constexpr const char* kMend = "as it was kept";

constexpr std::array<std::string_view, 3> kStandings{"ok", "weak", "nothing"};
constexpr std::array<std::string_view, 4> kDirections{"wide", "narrow", "pure", "unknown"};
constexpr std::array<std::string_view, 2> kWays{"meter", "ear"};
constexpr std::array<std::string_view, 12> kEventKinds{"heard",
                                                       "accept",
                                                       "skip",
                                                       "go-to",
                                                       "pause",
                                                       "resume",
                                                       "heard-pair",
                                                       "go-by",
                                                       "remark",
                                                       "press-test",
                                                       "undo",
                                                       "second-pass"};

/// What a session reckons with of them.
constexpr int kPartialsKept = 8;

std::string partialName(int number, const char* ending) {
    return "partial_" + std::to_string(number) + "_hz" + ending;
}

Json ofString(StringId string) {
    return {{"choir", string.choir}, {"course", string.course}};
}

StringId toString(const JsonObject& json) {
    return {static_cast<std::size_t>(json.whole("choir", kIndices, kMend)),
            static_cast<std::size_t>(json.whole("course", kIndices, kMend))};
}

struct Written {
    Json operator()(const Heard& heard) const {
        const StringReading& reading = heard.reading;
        Json json{{"kind", "heard"},
                  {"status", kStandings[static_cast<std::size_t>(reading.standing)]},
                  {"string", ofString(reading.string)},
                  {"pluck_frame", reading.pluck.value()},
                  {"used_s", reading.used.count()},
                  {"target_hz", reading.target.value()},
                  {"pitch_hz", reading.pitch.value()},
                  {"pitch_hz_u", reading.pitchUncertainty},
                  {"deviation_cents", reading.deviation.value()},
                  {"deviation_cents_u", reading.deviationUncertainty.value()},
                  {"start_cents", reading.startSharpness.value()},
                  {"start_cents_u", reading.startSharpnessUncertainty.value()},
                  {"fundamental_hz", reading.fundamental.value()},
                  {"inharmonicity", reading.inharmonicity},
                  {"inharmonicity_u", reading.inharmonicityUncertainty},
                  {"warnings", reading.warnings},
                  {"with_clock_cents_u", heard.uncertainty.value()},
                  {"at_s", heard.at.count()}};
        for (std::size_t i = 0; i < reading.partials.size(); ++i) {
            const PartialReading& partial = reading.partials[i];
            if (partial.number >= 1 && partial.number <= kPartialsKept) {
                json[partialName(partial.number, "")] = partial.frequency.value();
                json[partialName(partial.number, "_u")] = partial.frequencyUncertainty;
            }
        }
        json["own_beat_hz"] = reading.ownBeat ? Json(reading.ownBeat->perSecond()) : Json();
        return json;
    }

    Json operator()(const HeardPair& heard) const {
        return {{"kind", "heard-pair"},
                {"lower", ofString(heard.lower)},
                {"upper", ofString(heard.upper)},
                {"beat_hz", heard.beat.perSecond()},
                {"beat_hz_u", heard.uncertainty},
                {"direction", kDirections[static_cast<std::size_t>(heard.direction)]},
                {"weak", heard.weak},
                {"reference_heard", heard.referenceHeard},
                {"pluck_frame", heard.pluck.value()},
                {"at_s", heard.at.count()}};
    }

    Json operator()(const Accept& /*event*/) const { return {{"kind", "accept"}}; }

    Json operator()(const Skip& skip) const { return {{"kind", "skip"}, {"reason", skip.reason}}; }

    Json operator()(const GoTo& goTo) const {
        return {{"kind", "go-to"}, {"step", goTo.step}, {"at_frame", goTo.at.value()}};
    }

    Json operator()(const GoBy& goBy) const {
        return {{"kind", "go-by"}, {"way", kWays[static_cast<std::size_t>(goBy.way)]}};
    }

    Json operator()(const Remark& remark) const {
        return {{"kind", "remark"}, {"string", ofString(remark.string)}, {"text", remark.text}};
    }

    Json operator()(const PressTest& /*event*/) const { return {{"kind", "press-test"}}; }

    Json operator()(const SecondPass& /*event*/) const { return {{"kind", "second-pass"}}; }

    Json operator()(const Undo& /*event*/) const { return {{"kind", "undo"}}; }

    Json operator()(const Pause& /*event*/) const { return {{"kind", "pause"}}; }

    Json operator()(const Resume& /*event*/) const { return {{"kind", "resume"}}; }
};

double number(const JsonObject& json, const char* name) {
    return json.number(name, kAnyNumber, "", kMend);
}

FrameIndex frame(const JsonObject& json, const char* name) {
    return FrameIndex(static_cast<std::int64_t>(json.number(name, kFrames, "", kMend)));
}

Heard heardOf(const JsonObject& json) {
    Heard heard;
    StringReading& reading = heard.reading;
    reading.standing = static_cast<Standing>(json.choice("status", kStandings));
    reading.string = toString(json.object("string"));
    reading.pluck = frame(json, "pluck_frame");
    reading.used = Seconds(number(json, "used_s"));
    reading.target = Hertz(number(json, "target_hz"));
    reading.pitch = Hertz(number(json, "pitch_hz"));
    reading.pitchUncertainty = number(json, "pitch_hz_u");
    reading.deviation = Cents(number(json, "deviation_cents"));
    reading.deviationUncertainty = Cents(number(json, "deviation_cents_u"));
    reading.startSharpness = Cents(number(json, "start_cents"));
    reading.startSharpnessUncertainty = Cents(number(json, "start_cents_u"));
    reading.fundamental = Hertz(number(json, "fundamental_hz"));
    reading.inharmonicity = number(json, "inharmonicity");
    reading.inharmonicityUncertainty = number(json, "inharmonicity_u");
    reading.warnings = static_cast<std::uint32_t>(json.number("warnings", kBits, "", kMend));
    if (const auto beat = json.optionalNumber("own_beat_hz", kAnyNumber, "", kMend)) {
        reading.ownBeat = BeatRate(*beat);
    }
    for (int n = 1; n <= kPartialsKept; ++n) {
        const auto hz = json.optionalNumber(partialName(n, "").c_str(), kAnyNumber, "", kMend);
        const auto spread =
            json.optionalNumber(partialName(n, "_u").c_str(), kAnyNumber, "", kMend);
        if (hz && spread) {
            PartialReading partial;
            partial.number = n;
            partial.frequency = Hertz(*hz);
            partial.frequencyUncertainty = *spread;
            reading.partials.tryPush(partial);
        }
    }
    heard.uncertainty = Cents(number(json, "with_clock_cents_u"));
    heard.at = Seconds(number(json, "at_s"));
    return heard;
}

HeardPair heardPairOf(const JsonObject& json) {
    HeardPair heard;
    heard.lower = toString(json.object("lower"));
    heard.upper = toString(json.object("upper"));
    heard.beat = BeatRate(number(json, "beat_hz"));
    heard.uncertainty = number(json, "beat_hz_u");
    heard.direction = static_cast<BeatDirection>(json.choice("direction", kDirections));
    heard.weak = json.flagOr("weak", false);
    heard.referenceHeard = json.flagOr("reference_heard", false);
    heard.pluck = frame(json, "pluck_frame");
    heard.at = Seconds(number(json, "at_s"));
    return heard;
}

/// A text of any length, "" where there is none: people's own words.
std::string words(const Json& json, const char* name) {
    const auto found = json.find(name);
    return found != json.end() && found->is_string() ? found->get<std::string>() : std::string();
}

SessionEvent eventOf(const Json& raw, FieldReport& report) {
    const JsonObject json(raw, "", report);
    const std::string_view kind = kEventKinds[json.choice("kind", kEventKinds)];
    if (kind == "heard") {
        return heardOf(json);
    }
    if (kind == "heard-pair") {
        return heardPairOf(json);
    }
    if (kind == "accept") {
        return Accept{};
    }
    if (kind == "skip") {
        return Skip{words(raw, "reason")};
    }
    if (kind == "go-to") {
        return GoTo{static_cast<std::size_t>(json.whole("step", kIndices, kMend)),
                    frame(json, "at_frame")};
    }
    if (kind == "go-by") {
        return GoBy{static_cast<Way>(json.choice("way", kWays))};
    }
    if (kind == "remark") {
        return Remark{toString(json.object("string")), words(raw, "text")};
    }
    if (kind == "press-test") {
        return PressTest{};
    }
    if (kind == "second-pass") {
        return SecondPass{};
    }
    if (kind == "undo") {
        return Undo{};
    }
    return kind == "pause" ? SessionEvent(Pause{}) : SessionEvent(Resume{});
}

} // namespace

std::string formatSessionEvent(const SessionEvent& event) {
    return std::visit(Written{}, event.what).dump(-1, ' ', false, Json::error_handler_t::replace);
}

Result<SessionEvent> parseSessionEvent(int schema, std::string_view text) {
    if (schema < 1 || schema > kSessionEventSchema) {
        return failure(ErrorCode::UnreadableInput,
                       "an event of schema " + std::to_string(schema) + ": this version knows " +
                           std::to_string(kSessionEventSchema) +
                           "; go on with the version that began the session");
    }
    Result<Json> json = parseJson(text, kLongestEvent);
    if (!json) {
        return Unexpected<Error>(json.error());
    }
    FieldReport report;
    const SessionEvent event = eventOf(*json, report);
    if (!report.clean()) {
        return Unexpected<Error>(report.error());
    }
    return event;
}

} // namespace quillbench
