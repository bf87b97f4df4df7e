#include "app/cli/measure_report.hpp"

#include <array>
#include <cmath>
#include <cstdio>
#include <utility>

namespace quillbench::cli {

namespace {

using nlohmann::ordered_json;

constexpr int kSchema = 1;

const char* statusOf(Standing standing) {
    switch (standing) {
    case Standing::Ok:
        return "ok";
    case Standing::Weak:
        return "weak";
    case Standing::Nothing:
        break;
    }
    return "nothing";
}

constexpr std::array<std::pair<Warning, const char*>, 11> kWarnings{{
    {Warning::Clipped, "clipped"},
    {Warning::Hum, "hum"},
    {Warning::Noisy, "noisy"},
    {Warning::TwoStrings, "two strings"},
    {Warning::NotTheStringAsked, "not the string asked"},
    {Warning::RingingTwin, "ringing twin"},
    {Warning::AutomaticGain, "automatic gain"},
    {Warning::Gated, "gated"},
    {Warning::TooShort, "too short"},
    {Warning::FalseBeat, "false beat"},
    {Warning::OffTarget, "off target"},
}};

ordered_json optionalText(const std::optional<std::string>& text) {
    return text ? ordered_json(*text) : ordered_json(nullptr);
}

ordered_json optionalNumber(const std::optional<double>& number) {
    return number ? ordered_json(*number) : ordered_json(nullptr);
}

ordered_json
head(const std::optional<std::string>& id, const MeasureQuestion& question, const char* status) {
    ordered_json line;
    line["schema"] = kSchema;
    line["kind"] = "measure";
    line["id"] = optionalText(id);
    line["file"] = question.file;
    line["status"] = status;
    return line;
}

ordered_json partialsJson(const StringReading& reading) {
    ordered_json list = ordered_json::array();
    for (const PartialReading& partial : reading.partials) {
        ordered_json item;
        item["n"] = partial.number;
        item["hz"] = partial.frequency.value();
        item["hz_u"] = partial.frequencyUncertainty;
        item["level_db"] = partial.level.value();
        item["t60_s"] = partial.decay60.count() > 0.0 ? ordered_json(partial.decay60.count())
                                                      : ordered_json(nullptr);
        item["used"] = partial.used;
        list.push_back(std::move(item));
    }
    return list;
}

} // namespace

ordered_json measureJson(const MeasureContext& context, const StringReading& reading) {
    const bool heard = reading.standing != Standing::Nothing;
    ordered_json line = head(context.id, *context.question, statusOf(reading.standing));
    line["note"] =
        context.request.note ? ordered_json(toAscii(*context.request.note)) : ordered_json(nullptr);
    line["choir"] = context.question->choir;
    line["target_hz"] = context.request.target ? ordered_json(context.request.target->value())
                                               : ordered_json(nullptr);
    line["window_s"] = optionalNumber(context.window);
    const auto value = [&](const char* name, double number) {
        line[name] = heard ? ordered_json(number) : ordered_json(nullptr);
    };
    line["pluck_s"] =
        context.plucked
            ? ordered_json(static_cast<double>(reading.pluck.value()) / context.rate.hz())
            : ordered_json(nullptr);
    value("used_s", reading.used.count());
    value("pitch_hz", reading.pitch.value());
    value("pitch_hz_u", reading.pitchUncertainty);
    value("deviation_cents", reading.deviation.value());
    value("deviation_cents_u", reading.deviationUncertainty.value());
    value("start_cents", reading.startSharpness.value());
    value("start_cents_u", reading.startSharpnessUncertainty.value());
    value("f0_hz", reading.fundamental.value());
    value("inharmonicity", reading.inharmonicity);
    value("inharmonicity_u", reading.inharmonicityUncertainty);
    line["clock_ppm_u"] = 0.0;
    line["partials"] = heard ? partialsJson(reading) : ordered_json::array();
    line["own_beat_hz"] =
        reading.ownBeat ? ordered_json(reading.ownBeat->perSecond()) : ordered_json(nullptr);
    ordered_json warnings = ordered_json::array();
    for (const auto& [warning, text] : kWarnings) {
        if (reading.has(warning)) {
            warnings.push_back(text);
        }
    }
    line["warnings"] = std::move(warnings);
    return line;
}

ordered_json errorJson(const std::optional<std::string>& id,
                       const MeasureQuestion& question,
                       std::optional<double> window,
                       const std::string& text) {
    ordered_json line = head(id, question, "error");
    line["window_s"] = optionalNumber(window);
    line["error"] = text;
    return line;
}

std::string measureTable(const MeasureContext& context, const StringReading& reading) {
    std::string text = context.question->file;
    if (context.request.note) {
        text += "  " + toAscii(*context.request.note) + " " + context.question->choir + "'";
    }
    if (reading.standing == Standing::Nothing) {
        return text + "  nothing: no such string is heard\n";
    }
    std::array<char, 256> facts{};
    std::snprintf(
        facts.data(),
        facts.size(),
        "  pitch %.3f Hz ± %.3f  deviation %+.2f ± %.2f cents  after %.2f s, started %.1f "
        "cents sharper  B %.2g ± %.1g",
        reading.pitch.value(),
        reading.pitchUncertainty,
        reading.deviation.value(),
        reading.deviationUncertainty.value(),
        reading.used.count(),
        reading.startSharpness.value(),
        reading.inharmonicity,
        reading.inharmonicityUncertainty);
    text += facts.data();
    text += reading.standing == Standing::Weak ? "  weak" : "";
    for (const auto& [warning, name] : kWarnings) {
        text += reading.has(warning) ? std::string("  ") + name : "";
    }
    return text + "\n";
}

double centsOffComb(const StringReading& reading, const PartialReading& partial) {
    const double n = partial.number;
    const double comb =
        n * reading.fundamental.value() * std::sqrt(1.0 + reading.inharmonicity * n * n);
    return 1200.0 * std::log2(partial.frequency.value() / comb);
}

std::string warningsText(const StringReading& reading) {
    std::string text;
    for (const auto& [warning, name] : kWarnings) {
        if (reading.has(warning)) {
            text += (text.empty() ? "" : ", ") + std::string(name);
        }
    }
    return text;
}

std::string measureExplanation(const StringReading& reading) {
    std::string text = "  partial        hz         ±    off comb   level  t60      \n";
    int next = 1;
    for (const PartialReading& partial : reading.partials) {
        for (; next < partial.number; ++next) {
            text += "  " + std::string(next < 10 ? 6 : 5, ' ') + std::to_string(next) +
                    "  not used: under the noise, or another string's\n";
        }
        ++next;
        std::array<char, 160> line{};
        std::snprintf(line.data(),
                      line.size(),
                      "  %7d  %10.3f  %8.3f  %+6.2f ct  %6.1f  %5.1f s  %s\n",
                      partial.number,
                      partial.frequency.value(),
                      partial.frequencyUncertainty,
                      centsOffComb(reading, partial),
                      partial.level.value(),
                      partial.decay60.count(),
                      partial.used ? "used" : "left out: too far off the comb");
        text += line.data();
    }
    return text;
}

} // namespace quillbench::cli
