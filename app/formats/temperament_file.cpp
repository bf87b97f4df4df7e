#include "app/formats/temperament_file.hpp"

#include "app/formats/csv.hpp"
#include "app/formats/json_fields.hpp"
#include "app/formats/text_file.hpp"
#include "core/support/excerpt.hpp"
#include "core/temperament/beat_table.hpp"
#include "core/temperament/catalogue.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <optional>
#include <utility>
#include <vector>

namespace quillbench {

namespace {

constexpr std::size_t kMostTemperamentBytes = 1U << 20U;
constexpr std::size_t kLongestName = 2000; // bytes; a paragraph of remarks
constexpr std::size_t kFewestFifths = 11;
constexpr std::size_t kMostFifths = 34;

constexpr std::array<std::string_view, 1> kTemperamentKinds{"temperament"};
constexpr std::array<std::string_view, 12> kFields{"schema",
                                                   "kind",
                                                   "id",
                                                   "name",
                                                   "year",
                                                   "source",
                                                   "status_note",
                                                   "disagreement",
                                                   "first",
                                                   "open",
                                                   "fifths",
                                                   "cents"};

/// A number with a decimal point whatever the locale.
std::string plain(double value, int decimals) {
    std::array<char, 48> buffer{};
    const auto end = std::to_chars(
        buffer.data(), buffer.data() + buffer.size(), value, std::chars_format::fixed, decimals);
    return {buffer.data(), end.ptr};
}

std::string longText(const Json& json, const char* name, FieldReport& report) {
    const auto found = json.find(name);
    if (found == json.end() || found->is_null()) {
        return {};
    }
    if (!found->is_string() || found->get_ref<const std::string&>().size() > kLongestName) {
        report.complain(name, found->type_name(), "give a text of up to 2000 bytes");
        return {};
    }
    return found->get<std::string>();
}

Tempering temperingAt(const Json& value, std::size_t index, FieldReport& report) {
    const std::string field = "fifths[" + std::to_string(index) + "]";
    Tempering tempering;
    if (value.is_number()) {
        const double cents = value.get<double>();
        if (!(std::abs(cents) <= 100.0)) {
            report.complain(field, value.dump(), "give -100 to 100 cents from a pure fifth");
            return tempering;
        }
        tempering.plain = Cents(cents);
        return tempering;
    }
    if (!value.is_string()) {
        report.complain(
            field, value.type_name(), "give a tempering such as \"-1/4S\", or a number of cents");
        return tempering;
    }
    const auto parsed = parseTempering(value.get_ref<const std::string&>());
    if (!parsed) {
        report.complain(field, "no tempering", parsed.error().text);
        return tempering;
    }
    return *parsed;
}

/// Passes on a refusal of the temperament itself as one of the file.
Result<Temperament> ofFile(Result<Temperament> made) {
    if (made) {
        return made;
    }
    return failure(ErrorCode::UnreadableInput, made.error().text);
}

Result<Temperament>
fromFifths(const Json& json, TemperamentDescription description, FieldReport& report) {
    const JsonObject fields(json, "", report);
    const std::string firstName =
        fields.text("first", "the note with which the chain of fifths begins, such as \"Eb\"");
    const auto first = parsePitchClass(firstName);
    if (!first) {
        report.complain(
            "first", "'" + excerpt(firstName) + "'", "give a note without octave such as \"Eb\"");
    }
    std::vector<Tempering> fifths;
    const Json& list = fields.list("fifths",
                                   kFewestFifths,
                                   kMostFifths,
                                   "the tempering of each fifth up the chain from first");
    for (std::size_t i = 0; i < list.size(); ++i) {
        fifths.push_back(temperingAt(list[i], i, report));
    }
    const bool open = fields.flagOr("open", false);
    if (!report.clean()) {
        return Unexpected<Error>(report.error());
    }
    return ofFile(Temperament::fromFifths(std::move(description), *first, std::move(fifths), open));
}

Result<Temperament>
fromCents(const Json& json, TemperamentDescription description, FieldReport& report) {
    const Json& table = json["cents"];
    if (!table.is_object()) {
        report.complain("cents",
                        table.type_name(),
                        "write an object of note names and cents above C, { \"C\": 0, ... }");
        return Unexpected<Error>(report.error());
    }
    std::vector<std::pair<PitchClass, Cents>> notes;
    for (const auto& [name, value] : table.items()) {
        const std::string field = "cents." + name;
        const auto note = parsePitchClass(name);
        if (!note) {
            report.complain(field, "no note", "name it by a letter A to G with # or b, such as Eb");
        } else if (!value.is_number()) {
            report.complain(field, value.type_name(), "give 0 to below 1200 cents above C");
        } else {
            notes.emplace_back(*note, Cents(value.get<double>()));
        }
    }
    if (!report.clean()) {
        return Unexpected<Error>(report.error());
    }
    return ofFile(Temperament::fromCents(std::move(description), notes));
}

bool has(const Json& json, const char* name) {
    const auto found = json.find(name);
    return found != json.end() && !found->is_null();
}

/// How many single edits apart two words are, at most `limit`. [Levenshtein1966]
std::size_t editDistance(std::string_view a, std::string_view b) {
    std::vector<std::size_t> row(b.size() + 1);
    for (std::size_t j = 0; j <= b.size(); ++j) {
        row[j] = j;
    }
    for (std::size_t i = 1; i <= a.size(); ++i) {
        std::size_t diagonal = row[0];
        row[0] = i;
        for (std::size_t j = 1; j <= b.size(); ++j) {
            const std::size_t above = row[j];
            row[j] =
                std::min({above + 1, row[j - 1] + 1, diagonal + (a[i - 1] == b[j - 1] ? 0U : 1U)});
            diagonal = above;
        }
    }
    return row.back();
}

std::string nearestIds(std::string_view asked) {
    std::string near;
    for (const Temperament& each : catalogue()) {
        if (each.id().find(asked) != std::string::npos || editDistance(each.id(), asked) <= 3) {
            near += (near.empty() ? "" : ", ") + each.id();
        }
    }
    return near;
}

} // namespace

Result<TemperamentFile> parseTemperament(std::string_view text) {
    const auto parsed = parseJson(text, kMostTemperamentBytes);
    if (!parsed) {
        return Unexpected<Error>(parsed.error());
    }
    const Json& json = *parsed;
    FieldReport report;
    const JsonObject fields(json, "", report);
    if (!report.clean()) {
        return Unexpected<Error>(report.error());
    }
    const int schema =
        fields.whole("schema", {1, 1e6}, "the number of the file's layout; this version reads 1");
    if (schema > kTemperamentSchema) {
        report.complain("schema",
                        std::to_string(schema),
                        "this version reads 1; a newer Quillbench wrote the file, use that one");
    }
    static_cast<void>(fields.choice("kind", kTemperamentKinds));
    TemperamentDescription description;
    description.id = fields.text("id", "a short name such as \"my-vallotti\"");
    description.name = fields.text("name", "what the temperament is called");
    description.year = fields.textOr("year", "");
    description.source = longText(json, "source", report);
    description.statusNote = longText(json, "status_note", report);
    description.disagreement = longText(json, "disagreement", report);
    description.status = DefinitionStatus::Own;
    if (has(json, "fifths") == has(json, "cents")) {
        report.complain("fifths",
                        has(json, "fifths") ? "given together with cents" : "missing",
                        "give either first and fifths, or cents");
    }
    if (!report.clean()) {
        return Unexpected<Error>(report.error());
    }
    auto made = has(json, "fifths") ? fromFifths(json, std::move(description), report)
                                    : fromCents(json, std::move(description), report);
    if (!made) {
        return Unexpected<Error>(made.error());
    }
    return TemperamentFile{std::move(made).value(), std::string(text)};
}

std::string formatTemperament(const TemperamentFile& file) {
    const Temperament& temperament = file.temperament;
    const TemperamentDescription& about = temperament.description();
    Json json{{"schema", kTemperamentSchema},
              {"kind", "temperament"},
              {"id", about.id},
              {"name", about.name}};
    for (const auto& [name, text] : {std::pair("year", about.year),
                                     std::pair("source", about.source),
                                     std::pair("status_note", about.statusNote),
                                     std::pair("disagreement", about.disagreement)}) {
        if (!text.empty()) {
            json[name] = text;
        }
    }
    json["first"] = toAscii(temperament.notes().front());
    if (!temperament.isCircle()) {
        json["open"] = true;
    }
    json["fifths"] = Json::array();
    for (const Tempering& each : temperament.fifths()) {
        json["fifths"].push_back(toText(each));
    }
    if (!file.original.empty()) {
        if (const auto original = parseJson(file.original, kMostTemperamentBytes)) {
            keepUnknown(json, *original, kFields);
        }
    }
    return formatJson(json);
}

Result<TemperamentFile> readTemperamentFile(const std::filesystem::path& path) {
    const auto text = readTextFile(path);
    if (!text) {
        return Unexpected<Error>(text.error());
    }
    auto file = parseTemperament(*text);
    if (!file) {
        return failure(file.error().code, path.string() + ": " + file.error().text, path.string());
    }
    return file;
}

Result<void> writeTemperamentFile(const std::filesystem::path& path, const TemperamentFile& file) {
    return writeTextFile(path, formatTemperament(file));
}

Result<Temperament> loadTemperament(const std::string& idOrFile) {
    if (const Temperament* known = findTemperament(idOrFile)) {
        return *known;
    }
    const bool looksLikeFile =
        idOrFile.find('/') != std::string::npos || idOrFile.find('.') != std::string::npos;
    std::error_code code;
    if (looksLikeFile || std::filesystem::is_regular_file(idOrFile, code)) {
        auto file = readTemperamentFile(idOrFile);
        if (!file) {
            return Unexpected<Error>(file.error());
        }
        return std::move(file).value().temperament;
    }
    const std::string near = nearestIds(idOrFile);
    return failure(
        ErrorCode::BadArgument,
        "no temperament '" + excerpt(idOrFile) + "': " +
            (near.empty() ? "'quillbench-cli temperament' lists them all" : "perhaps " + near) +
            "; or give a temperament file (.json)");
}

std::string formatScaleCsv(const TunedScale& scale, const Note& lowest, const Note& highest) {
    std::string text = formatCsvRecord({"note", "midi_key", "hz", "cents_from_c", "offset_cents"});
    const Temperament& temperament = scale.temperament;
    const PitchClass anchor = scale.reference.note.pitchClass;
    for (const Note& key : keysBetween(temperament, lowest, highest)) {
        text += formatCsvRecord(
            {toAscii(key),
             std::to_string(key.midiNumber()),
             plain(scale.pitchOf(key).value(), 9),
             plain(temperament.centsFromC(key.pitchClass).value(), 6),
             plain(temperament.offsetFromEqual(key.pitchClass, anchor).value(), 6)});
    }
    return text;
}

} // namespace quillbench
