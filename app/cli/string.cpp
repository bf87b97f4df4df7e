#include "core/instrument/string.hpp"

#include "app/cli/command.hpp"
#include "app/formats/instrument_file.hpp"
#include "app/formats/json_fields.hpp"
#include "core/instrument/limits.hpp"
#include "core/support/excerpt.hpp"

#include <nlohmann/json.hpp>

#include <cstdio>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace quillbench::cli {

namespace {

using Json = nlohmann::ordered_json;

/// What was asked for: one string by its make, or the strings of an instrument.
struct StringOptions {
    std::optional<double> hz;
    std::optional<double> lengthMm;
    std::optional<double> diameterMm;
    std::optional<double> pinDiameterMm;
    std::string material;
    std::string instrument;
    std::string choir;
    std::string note;
    bool json = false;
};

/// One string to be reckoned.
struct AskedString {
    std::string id; ///< "8b:A3"; empty for a string that belongs to no instrument
    StringMake make;
    Hertz pitch;
};

int refuseString(ErrorCode code, const std::string& text) {
    std::fprintf(stderr, "quillbench-cli string: %s\n", text.c_str());
    return code == ErrorCode::BadArgument ? kWrongCommandLine : kUnreadableInput;
}

/// Complains where a value is missing or outside its limits; empty where it is good.
std::string faultOf(const char* option,
                    const std::optional<double>& value,
                    Limits limits,
                    const char* unit,
                    const char* meaning) {
    if (value && limits.holds(*value)) {
        return {};
    }
    char text[200];
    std::snprintf(
        text, sizeof text, " give %g to %g %s, %s", limits.low, limits.high, unit, meaning);
    char shown[64];
    std::snprintf(shown, sizeof shown, " is %g:", value.value_or(0.0));
    return std::string(option) + (value ? shown : " is missing:") + text;
}

Result<std::vector<AskedString>> oneString(const StringOptions& options) {
    const std::string faults[] = {
        faultOf("--hz", options.hz, kStringPitchLimits, "Hz", "the pitch of the string"),
        faultOf("--length-mm",
                options.lengthMm,
                kLengthLimits,
                "mm",
                "the speaking length from nut pin to bridge pin"),
        faultOf("--diameter-mm",
                options.diameterMm,
                kDiameterLimits,
                "mm",
                "the thickness of the wire"),
        options.pinDiameterMm ? faultOf("--pin-diameter-mm",
                                        options.pinDiameterMm,
                                        kPinLimits,
                                        "mm",
                                        "the tuning pin where the wire is wound")
                              : std::string(),
        findMaterial(options.material) == nullptr
            ? "--material is " +
                  (options.material.empty() ? "missing" : "'" + excerpt(options.material) + "'") +
                  ": give one of " + materialIds()
            : std::string()};
    for (const std::string& fault : faults) {
        if (!fault.empty()) {
            return failure(ErrorCode::BadArgument, fault);
        }
    }
    AskedString asked;
    asked.make.length = Millimetre(*options.lengthMm);
    asked.make.diameter = Millimetre(*options.diameterMm);
    asked.make.material = options.material;
    if (options.pinDiameterMm) {
        asked.make.pinDiameter = Millimetre(*options.pinDiameterMm);
    }
    asked.pitch = Hertz(*options.hz);
    return std::vector<AskedString>{asked};
}

Result<std::vector<AskedString>> stringsOf(const StringOptions& options) {
    const auto instrument = loadInstrument(options.instrument);
    if (!instrument) {
        return Unexpected<Error>(instrument.error());
    }
    std::optional<Note> note;
    if (!options.note.empty()) {
        const auto parsed = parseNote(options.note);
        if (!parsed) {
            return Unexpected<Error>(parsed.error());
        }
        note = *parsed;
    }
    if (!options.choir.empty() && !choirOf(*instrument, options.choir)) {
        std::string ids;
        for (const Choir& choir : instrument->choirs) {
            ids += (ids.empty() ? "" : ", ") + choir.id;
        }
        return failure(ErrorCode::BadArgument,
                       "--choir is '" + excerpt(options.choir) + "': give one of " + ids);
    }
    std::vector<AskedString> asked;
    for (std::size_t c = 0; c < instrument->choirs.size(); ++c) {
        const Choir& choir = instrument->choirs[c];
        if (!options.choir.empty() && choir.id != options.choir) {
            continue;
        }
        for (std::size_t course = 0; course < choir.strings.size(); ++course) {
            const StringId string{c, course};
            if (!note || stringOf(*instrument, c, *note) == string) {
                asked.push_back({stringCode(*instrument, string),
                                 choir.strings[course],
                                 nominalPitch(*instrument, string)});
            }
        }
    }
    if (asked.empty()) {
        return failure(ErrorCode::BadArgument,
                       "--note is '" + excerpt(options.note) + "': give a key of the compass, " +
                           toAscii(instrument->compass.keys.front().note) + " to " +
                           toAscii(instrument->compass.keys.back().note));
    }
    return asked;
}

Json toJson(const AskedString& asked, const StringState& state) {
    Json json;
    json["schema"] = 1;
    json["kind"] = "string";
    json["id"] = asked.id.empty() ? Json() : Json(asked.id);
    json["status"] = "ok";
    json["hz"] = asked.pitch.value();
    json["length_mm"] = asked.make.length.value();
    json["diameter_mm"] = asked.make.diameter.value();
    json["material"] = asked.make.material;
    json["tension_n"] = state.tension.value();
    json["stress_mpa"] = state.stress.value();
    json["strength_mpa_low"] = state.strength.low.value();
    json["strength_mpa_high"] = state.strength.high.value();
    json["loop_allowance"] = kLoopAllowance;
    json["margin_semitones_low"] = state.margin.lowSemitones;
    json["margin_semitones_high"] = state.margin.highSemitones;
    json["inharmonicity"] = state.inharmonicity;
    json["mass_per_m"] = state.massPerMetre.value();
    json["pin_diameter_mm"] =
        asked.make.pinDiameter ? Json(asked.make.pinDiameter->value()) : Json();
    json["cents_per_degree"] = state.centsPerDegree ? Json(state.centsPerDegree->value()) : Json();
    json["cents_per_kelvin"] = state.centsPerKelvin.value();
    json["frame_expansion_per_kelvin"] = kWoodExpansionPerKelvin;
    json["source"] = sourceLine(materialOf(asked.make));
    return json;
}

void printOne(const AskedString& asked, const StringState& state) {
    const Material& material = materialOf(asked.make);
    std::printf("%.2f Hz on %.1f mm of %.3g mm %s\n",
                asked.pitch.value(),
                asked.make.length.value(),
                asked.make.diameter.value(),
                std::string(material.name).c_str());
    std::printf("tension             %.1f N\n", state.tension.value());
    std::printf("stress              %.0f MPa\n", state.stress.value());
    std::printf("strength of wire    %.0f to %.0f MPa\n",
                state.strength.low.value(),
                state.strength.high.value());
    std::printf("breaks above it by  %+.1f to %+.1f semitones\n",
                state.margin.lowSemitones,
                state.margin.highSemitones);
    std::printf("inharmonicity B     %.3g\n", state.inharmonicity);
    std::printf("mass                %.4g g/m\n", 1000.0 * state.massPerMetre.value());
    if (state.centsPerDegree) {
        std::printf("a degree of pin     up to %.1f cents\n", state.centsPerDegree->value());
    }
    std::printf("a kelvin warmer     %+.1f cents\n", state.centsPerKelvin.value());
    std::printf("from                %s\n", sourceLine(material).c_str());
}

void printTable(const std::vector<AskedString>& strings) {
    std::printf("%-8s %9s %7s %6s %-13s %6s %5s %13s %8s %7s %7s\n",
                "string",
                "Hz",
                "mm",
                "wire",
                "material",
                "N",
                "MPa",
                "breaks above",
                "B",
                "ct/deg",
                "ct/K");
    for (const AskedString& asked : strings) {
        const StringState state = stringState(asked.make, asked.pitch);
        char turn[16] = "-";
        if (state.centsPerDegree) {
            std::snprintf(turn, sizeof turn, "%.1f", state.centsPerDegree->value());
        }
        std::printf("%-8s %9.2f %7.1f %6.3g %-13s %6.1f %5.0f %+5.1f to %+5.1f %8.2g %7s %+7.1f\n",
                    asked.id.c_str(),
                    asked.pitch.value(),
                    asked.make.length.value(),
                    asked.make.diameter.value(),
                    asked.make.material.c_str(),
                    state.tension.value(),
                    state.stress.value(),
                    state.margin.lowSemitones,
                    state.margin.highSemitones,
                    state.inharmonicity,
                    turn,
                    state.centsPerKelvin.value());
    }
}

int run(const StringOptions& options) {
    const auto strings = options.instrument.empty() ? oneString(options) : stringsOf(options);
    if (!strings) {
        return refuseString(strings.error().code, strings.error().text);
    }
    if (options.json) {
        for (const AskedString& asked : *strings) {
            std::printf(
                "%s\n",
                formatJsonLine(toJson(asked, stringState(asked.make, asked.pitch))).c_str());
        }
    } else if (options.instrument.empty()) {
        printOne(strings->front(), stringState(strings->front().make, strings->front().pitch));
    } else {
        printTable(*strings);
    }
    std::fputs(
        "The margin is a range, not a promise: wire of one name differs, and loops, kinks and "
        "rust weaken it. Keep your eyes away from a string under tension. For a historical "
        "instrument ask its maker or a conservator first.\n",
        stderr);
    return kDone;
}

} // namespace

void addString(CLI::App& app, int& exitCode) {
    CLI::App* command = app.add_subcommand(
        "string", "Tension, stress, margin to breaking and inharmonicity of a string");
    auto options = std::make_shared<StringOptions>();
    command->add_option("--hz", options->hz, "Pitch of the string in Hz");
    command->add_option("--length-mm", options->lengthMm, "Speaking length in mm");
    command->add_option("--diameter-mm", options->diameterMm, "Diameter of the wire in mm");
    command->add_option("--material", options->material, "Material: " + materialIds());
    command->add_option(
        "--pin-diameter-mm", options->pinDiameterMm, "Diameter of the tuning pin in mm");
    auto* instrument = command->add_option(
        "--instrument",
        options->instrument,
        "Instead of one string: every string of an instrument file or example, at its pitch "
        "standard in equal temperament");
    command->add_option("--choir", options->choir, "Only this choir of the instrument")
        ->needs(instrument);
    command->add_option("--note", options->note, "Only the strings of this key")->needs(instrument);
    for (const char* own :
         {"--hz", "--length-mm", "--diameter-mm", "--material", "--pin-diameter-mm"}) {
        instrument->excludes(command->get_option(own));
    }
    command->add_flag("--json", options->json, "Print JSON, one line a string");
    addExamples(*command,
                {"string --hz 415 --length-mm 345 --diameter-mm 0.24 --material iron",
                 "string --instrument double-8-8-4 --choir 4 --note C3"});
    command->callback([options, &exitCode] { exitCode = run(*options); });
}

} // namespace quillbench::cli
