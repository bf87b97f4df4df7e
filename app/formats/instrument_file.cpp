#include "app/formats/instrument_file.hpp"

#include "app/formats/json_fields.hpp"
#include "app/formats/text_file.hpp"
#include "core/instrument/examples.hpp"
#include "core/instrument/limits.hpp"
#include "core/instrument/material.hpp"
#include "core/support/excerpt.hpp"

#include <algorithm>
#include <array>
#include <set>
#include <utility>

namespace quillbench {

namespace {

constexpr std::size_t kMostInstrumentBytes = 4U << 20U;
constexpr int kLowestMidi = 12;   // C0
constexpr int kHighestMidi = 120; // C9

using Names = std::vector<std::string_view>;

constexpr std::array<std::string_view, 15> kFileFields{"schema",
                                                       "kind",
                                                       "id",
                                                       "name",
                                                       "maker",
                                                       "place",
                                                       "example",
                                                       "pitch_standard_hz",
                                                       "positions",
                                                       "compass",
                                                       "manuals",
                                                       "choirs",
                                                       "registers",
                                                       "coupler",
                                                       "buff_choir"};
constexpr std::array<std::string_view, 2> kCompassFields{"bass_octave", "keys"};
constexpr std::array<std::string_view, 3> kKeyFields{"note", "shape", "column"};
constexpr std::array<std::string_view, 1> kManualFields{"name"};
constexpr std::array<std::string_view, 4> kChoirFields{"id", "footage", "silencing", "strings"};
constexpr std::array<std::string_view, 6> kStringFields{
    "length_mm", "diameter_mm", "material", "pin_diameter_mm", "pin_row", "pin_place"};
constexpr std::array<std::string_view, 9> kRegisterFields{
    "id", "name", "choir", "manual", "dogleg", "lute", "adjusters", "pluck_point", "stagger_mm"};

constexpr std::array<std::string_view, 1> kInstrumentKinds{"instrument"};
constexpr std::array<std::string_view, 4> kBassOctaves{
    "chromatic", "short C/E", "short GG/BB", "broken C/E"};
constexpr std::array<std::string_view, 4> kShapes{"natural", "sharp", "sharp-front", "sharp-back"};
// In the order of the enumerations.
constexpr std::array<std::string_view, 6> kSilencings{
    "lever", "knee", "foot", "hand-at-the-register", "felt-strip", "not-at-all"};
constexpr std::array<std::string_view, 4> kCouplers{"none", "shove", "lever", "dogleg"};

Names materialNames() {
    Names names;
    for (const Material& material : materials()) {
        names.push_back(material.id);
    }
    return names;
}

/// Views of one text field of each element; they live as long as the list.
template <typename T>
Names namesOf(const std::vector<T>& list, std::string T::*field) {
    Names names;
    for (const T& entry : list) {
        names.push_back(entry.*field);
    }
    return names;
}

std::string element(const std::string& list, std::size_t index) {
    return list + "[" + std::to_string(index) + "]";
}

/// Complains where an id occurs a second time.
void demandUnlike(const Names& ids,
                  const std::string& list,
                  const char* field,
                  FieldReport& report) {
    std::set<std::string_view> seen;
    for (std::size_t i = 0; i < ids.size(); ++i) {
        if (!seen.insert(ids[i]).second) {
            report.complain(element(list, i) + "." + field,
                            '"' + excerpt(ids[i]) + '"',
                            "give a name of its own, this one is taken already");
        }
    }
}

Compass readCompass(const JsonObject& json, FieldReport& report) {
    Compass compass;
    compass.bassOctave = kBassOctaves[json.choice("bass_octave", kBassOctaves)];
    const Json& keys = json.list("keys", 1, kMostKeys, "the keys from the lowest up");
    for (std::size_t i = 0; i < keys.size(); ++i) {
        const JsonObject entry(keys[i], element(json.pathOf("keys"), i), report);
        Key key;
        const std::string name = entry.text("note", "such as F#3 (C4 is middle C)");
        const auto note = parseNote(name);
        if (!note || note->midiNumber() < kLowestMidi || note->midiNumber() > kHighestMidi) {
            report.complain(entry.pathOf("note"),
                            entry.shown("note"),
                            "give a note from C0 to C9, such as F#3 (C4 is middle C)");
        } else {
            key.note = *note;
        }
        key.shape = kShapes[entry.choice("shape", kShapes)];
        key.column = entry.number("column",
                                  kColumnLimits,
                                  "natural key widths",
                                  "the middle of the key from the left end");
        if (i > 0 && report.clean()) {
            const Note& below = compass.keys.back().note;
            if (key.note.midiNumber() < below.midiNumber() || key.note == below) {
                report.complain(
                    entry.pathOf("note"),
                    entry.shown("note"),
                    "give keys in ascending order of what they sound; the one before is " +
                        toAscii(below));
            }
        }
        compass.keys.push_back(std::move(key));
    }
    return compass;
}

void readString(const JsonObject& json, const Names& known, Choir& choir) {
    StringMake make;
    make.length = Millimetre(json.number(
        "length_mm", kLengthLimits, "mm", "the speaking length from nut pin to bridge pin"));
    make.diameter =
        Millimetre(json.number("diameter_mm", kDiameterLimits, "mm", "the thickness of the wire"));
    make.material = known[json.choice("material", known)];
    if (const auto pin = json.optionalNumber(
            "pin_diameter_mm", kPinLimits, "mm", "the tuning pin where the wire is wound")) {
        make.pinDiameter = Millimetre(*pin);
    }
    PinPlace place;
    place.row = json.wholeOr("pin_row", 0, kPinPlaceLimits, "rows counted from the player");
    place.place = json.wholeOr("pin_place", 0, kPinPlaceLimits, "pins counted from the left");
    choir.strings.push_back(std::move(make));
    choir.pins.push_back(place);
}

Choir readChoir(const JsonObject& json,
                const Instrument& instrument,
                const Names& known,
                FieldReport& report) {
    Choir choir;
    choir.id = json.text("id", "such as 8, 8b, 4 or 16");
    const int feet = json.whole("footage", {4, 16}, "the length in feet: 4, 8 or 16");
    if (feet != 4 && feet != 8 && feet != 16) {
        report.complain(json.pathOf("footage"), json.shown("footage"), "give 4, 8 or 16");
    }
    choir.footage = feet == 16 ? Footage::Sixteen : feet == 4 ? Footage::Four : Footage::Eight;
    choir.silencing = static_cast<Silencing>(json.choice("silencing", kSilencings));
    const auto [low, high] =
        std::minmax_element(instrument.positions.begin(), instrument.positions.end());
    const std::size_t keys = instrument.compass.keys.size();
    const Json& strings = json.list(
        "strings",
        keys,
        keys + static_cast<std::size_t>(*high - *low),
        "one for each key from the lowest up, and more only as far as the keyboard shifts");
    for (std::size_t i = 0; i < strings.size() && report.clean(); ++i) {
        readString(
            JsonObject(strings[i], element(json.pathOf("strings"), i), report), known, choir);
    }
    return choir;
}

JackRegister readRegister(const JsonObject& json, const Names& choirs, const Names& manuals) {
    JackRegister row;
    row.id = json.text("id", "such as 8, 4 or lute");
    row.name = json.textOr("name", row.id.c_str());
    row.choir = json.choice("choir", choirs);
    row.manual = json.choice("manual", manuals);
    row.dogleg = json.flagOr("dogleg", false);
    row.lute = json.flagOr("lute", false);
    row.adjusters = json.flagOr("adjusters", false);
    row.pluckPoint =
        json.number("pluck_point",
                    kPluckPointLimits,
                    "",
                    "the distance from the nut as a part of the speaking length at c2");
    row.stagger =
        json.number("stagger_mm", kStaggerLimits, "mm", "the key travel at which it plucks");
    return row;
}

std::vector<int> readPositions(const JsonObject& json, FieldReport& report) {
    const Json& list =
        json.list("positions", 1, kMostPositions, "semitones of sounding pitch, 0 among them");
    std::vector<int> positions;
    for (std::size_t i = 0; i < list.size(); ++i) {
        const bool good =
            list[i].is_number_integer() && kPositionLimits.holds(list[i].get<double>());
        const int position = good ? list[i].get<int>() : 0;
        if (!good || std::find(positions.begin(), positions.end(), position) != positions.end()) {
            report.complain(element("positions", i),
                            list[i].is_number() ? list[i].dump() : "no number",
                            "give whole semitones from -12 to 12, each once");
        }
        positions.push_back(position);
    }
    if (std::find(positions.begin(), positions.end(), 0) == positions.end()) {
        report.complain("positions",
                        json.shown("positions"),
                        "put 0 among them, the position at which pitch_standard_hz holds");
        positions.push_back(0);
    }
    return positions;
}

void checkSchema(const JsonObject& json, FieldReport& report) {
    const int schema =
        json.whole("schema", {1, 1e6}, "the number of the file's layout; this version reads 1");
    if (schema > kInstrumentSchema) {
        report.complain("schema",
                        std::to_string(schema),
                        "this version reads up to " + std::to_string(kInstrumentSchema) +
                            "; open the file with a newer Quillbench");
    }
    static_cast<void>(json.choice("kind", kInstrumentKinds));
}

void readManuals(const JsonObject& json, Instrument& instrument, FieldReport& report) {
    const Json& manuals = json.list("manuals", 1, kMostManuals, "the lowest first");
    for (std::size_t i = 0; i < manuals.size(); ++i) {
        const JsonObject entry(manuals[i], element("manuals", i), report);
        instrument.manuals.push_back(Manual{entry.text("name", "such as lower")});
    }
    const Names names = namesOf(instrument.manuals, &Manual::name);
    demandUnlike(names, "manuals", "name", report);
}

void readChoirs(const JsonObject& json, Instrument& instrument, FieldReport& report) {
    const Names known = materialNames();
    const Json& choirs = json.list("choirs", 1, kMostChoirs, "one for each set of strings");
    for (std::size_t i = 0; i < choirs.size() && report.clean(); ++i) {
        const JsonObject entry(choirs[i], element("choirs", i), report);
        instrument.choirs.push_back(readChoir(entry, instrument, known, report));
    }
    demandUnlike(namesOf(instrument.choirs, &Choir::id), "choirs", "id", report);
}

void readRegisters(const JsonObject& json, Instrument& instrument, FieldReport& report) {
    const Names choirs = namesOf(instrument.choirs, &Choir::id);
    const Names manuals = namesOf(instrument.manuals, &Manual::name);
    const Json& rows = json.list("registers", 1, kMostRegisters, "one for each row of jacks");
    for (std::size_t i = 0; i < rows.size(); ++i) {
        const JsonObject entry(rows[i], element("registers", i), report);
        instrument.registers.push_back(readRegister(entry, choirs, manuals));
        const JackRegister& row = instrument.registers.back();
        if (row.dogleg && manuals.size() < 2) {
            report.complain(entry.pathOf("dogleg"),
                            "true",
                            "give false; a dogleg is played from two manuals and here is one");
        }
    }
    demandUnlike(namesOf(instrument.registers, &JackRegister::id), "registers", "id", report);
    instrument.coupler = static_cast<Coupler>(json.choice("coupler", kCouplers));
    if (instrument.coupler != Coupler::None && manuals.size() < 2) {
        report.complain("coupler",
                        json.shown("coupler"),
                        "give \"none\"; there is one manual and nothing to couple");
    }
    instrument.buffChoir = json.optionalChoice("buff_choir", choirs);
}

Instrument readInstrument(const Json& value, FieldReport& report) {
    const JsonObject json(value, "", report);
    Instrument instrument;
    checkSchema(json, report);
    instrument.id = json.text("id", "a short name without spaces");
    instrument.name = json.text("name", "what people call it");
    instrument.maker = json.textOr("maker", "");
    instrument.place = json.textOr("place", "");
    instrument.example = json.flagOr("example", false);
    instrument.pitchStandardHz = json.number(
        "pitch_standard_hz", kPitchStandardLimits, "Hz", "the pitch of a' at position 0");
    instrument.positions = readPositions(json, report);
    if (!report.clean()) {
        return instrument;
    }
    instrument.compass = readCompass(json.object("compass"), report);
    readManuals(json, instrument, report);
    if (report.clean()) {
        readChoirs(json, instrument, report);
    }
    if (report.clean()) {
        readRegisters(json, instrument, report);
    }
    return instrument;
}

/// The element of a list whose field holds a text; null where there is none.
const Json& foundBy(const Json& list, const char* field, const std::string& text) {
    static const Json kNone;
    if (list.is_array()) {
        for (const Json& entry : list) {
            if (entry.is_object() && entry.contains(field) && entry[field] == text) {
                return entry;
            }
        }
    }
    return kNone;
}

const Json& member(const Json& object, const char* name) {
    static const Json kNone;
    return object.is_object() && object.contains(name) ? object[name] : kNone;
}

Json compassJson(const Compass& compass, const Json& original) {
    Json keys = Json::array();
    for (const Key& key : compass.keys) {
        Json entry{{"note", toAscii(key.note)}, {"shape", key.shape}, {"column", key.column}};
        keepUnknown(
            entry, foundBy(member(original, "keys"), "note", toAscii(key.note)), kKeyFields);
        keys.push_back(std::move(entry));
    }
    Json json{{"bass_octave", compass.bassOctave}, {"keys", std::move(keys)}};
    keepUnknown(json, original, kCompassFields);
    return json;
}

Json stringJson(const StringMake& make, const PinPlace& pin, const Json& original) {
    Json json{{"length_mm", make.length.value()},
              {"diameter_mm", make.diameter.value()},
              {"material", make.material}};
    if (make.pinDiameter) {
        json["pin_diameter_mm"] = make.pinDiameter->value();
    }
    if (pin.row != 0) {
        json["pin_row"] = pin.row;
    }
    if (pin.place != 0) {
        json["pin_place"] = pin.place;
    }
    keepUnknown(json, original, kStringFields);
    return json;
}

int feetOf(Footage footage) {
    switch (footage) {
    case Footage::Sixteen:
        return 16;
    case Footage::Eight:
        return 8;
    case Footage::Four:
        return 4;
    }
    return 8;
}

Json choirJson(const Choir& choir, const Json& original) {
    Json strings = Json::array();
    const Json& before = member(original, "strings");
    for (std::size_t i = 0; i < choir.strings.size(); ++i) {
        const PinPlace pin = i < choir.pins.size() ? choir.pins[i] : PinPlace{};
        strings.push_back(stringJson(
            choir.strings[i], pin, before.is_array() && i < before.size() ? before[i] : Json()));
    }
    Json json{{"id", choir.id},
              {"footage", feetOf(choir.footage)},
              {"silencing", kSilencings[static_cast<std::size_t>(choir.silencing)]},
              {"strings", std::move(strings)}};
    keepUnknown(json, original, kChoirFields);
    return json;
}

Json registerJson(const JackRegister& row, const Instrument& instrument, const Json& original) {
    Json json{{"id", row.id},
              {"name", row.name},
              {"choir", instrument.choirs[row.choir].id},
              {"manual", instrument.manuals[row.manual].name},
              {"dogleg", row.dogleg},
              {"lute", row.lute},
              {"adjusters", row.adjusters},
              {"pluck_point", row.pluckPoint},
              {"stagger_mm", row.stagger}};
    keepUnknown(json, original, kRegisterFields);
    return json;
}

} // namespace

Result<InstrumentFile> parseInstrument(std::string_view text) {
    const auto json = parseJson(text, kMostInstrumentBytes);
    if (!json) {
        return Unexpected<Error>(json.error());
    }
    FieldReport report;
    InstrumentFile file{readInstrument(*json, report), std::string(text)};
    if (!report.clean()) {
        return Unexpected<Error>(report.error());
    }
    return file;
}

std::string formatInstrument(const InstrumentFile& file) {
    const auto parsed = file.original.empty() ? Result<Json>(Json())
                                              : parseJson(file.original, kMostInstrumentBytes);
    const Json original = parsed ? *parsed : Json();
    const Instrument& instrument = file.instrument;
    Json json{{"schema", kInstrumentSchema},
              {"kind", "instrument"},
              {"id", instrument.id},
              {"name", instrument.name},
              {"maker", instrument.maker},
              {"place", instrument.place},
              {"example", instrument.example},
              {"pitch_standard_hz", instrument.pitchStandardHz},
              {"positions", instrument.positions},
              {"coupler", kCouplers[static_cast<std::size_t>(instrument.coupler)]},
              {"buff_choir",
               instrument.buffChoir ? Json(instrument.choirs[*instrument.buffChoir].id) : Json()}};
    json["manuals"] = Json::array();
    for (const Manual& manual : instrument.manuals) {
        Json entry{{"name", manual.name}};
        keepUnknown(
            entry, foundBy(member(original, "manuals"), "name", manual.name), kManualFields);
        json["manuals"].push_back(std::move(entry));
    }
    json["registers"] = Json::array();
    for (const JackRegister& row : instrument.registers) {
        json["registers"].push_back(
            registerJson(row, instrument, foundBy(member(original, "registers"), "id", row.id)));
    }
    keepUnknown(json, original, kFileFields);
    json["compass"] = compassJson(instrument.compass, member(original, "compass"));
    json["choirs"] = Json::array();
    for (const Choir& choir : instrument.choirs) {
        json["choirs"].push_back(
            choirJson(choir, foundBy(member(original, "choirs"), "id", choir.id)));
    }
    return formatJson(json);
}

Result<InstrumentFile> readInstrumentFile(const std::filesystem::path& path) {
    const auto text = readTextFile(path);
    if (!text) {
        return Unexpected<Error>(text.error());
    }
    auto file = parseInstrument(*text);
    if (!file) {
        Error error = file.error();
        error.text = path.string() + ": " + error.text;
        return Unexpected<Error>(std::move(error));
    }
    return file;
}

Result<void> writeInstrumentFile(const std::filesystem::path& path, const InstrumentFile& file) {
    return writeTextFile(path, formatInstrument(file));
}

Result<Instrument> loadInstrument(const std::string& idOrFile) {
    if (const Instrument* example = findExample(idOrFile)) {
        return *example;
    }
    std::error_code code;
    if (!std::filesystem::exists(idOrFile, code)) {
        return failure(ErrorCode::UnreadableInput,
                       idOrFile + ": no such file, nor an example (" + exampleIds() + ")",
                       idOrFile);
    }
    auto file = readInstrumentFile(idOrFile);
    if (!file) {
        return Unexpected<Error>(file.error());
    }
    return std::move(file).value().instrument;
}

} // namespace quillbench
