#include "app/formats/string_list.hpp"

#include "app/formats/csv.hpp"
#include "core/instrument/limits.hpp"
#include "core/instrument/material.hpp"
#include "core/support/excerpt.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <cstdlib>
#include <functional>
#include <map>
#include <tuple>
#include <utility>

namespace quillbench {

namespace {

constexpr std::array<std::string_view, 8> kColumns{"choir",
                                                   "key",
                                                   "length_mm",
                                                   "diameter_mm",
                                                   "material",
                                                   "pin_diameter_mm",
                                                   "pin_row",
                                                   "pin_place"};

std::string plainNumber(double value) {
    // A file has a decimal point whatever the language of the system.
    std::array<char, 32> buffer{};
    const auto written = std::to_chars(
        buffer.data(), buffer.data() + buffer.size(), value, std::chars_format::general, 10);
    return {buffer.data(), written.ptr};
}

Unexpected<Error>
atCell(std::size_t line, std::string_view column, std::string_view value, const std::string& mend) {
    const std::string where = "line " + std::to_string(line) + ", " + std::string(column);
    return failure(
        ErrorCode::UnreadableInput, where + " is '" + excerpt(value) + "': " + mend, where);
}

/// The cells of one record by column.
class Row {
public:
    Row(const CsvRecord& record, const std::map<std::string_view, std::size_t>& places)
        : record_(record),
          places_(places) {}

    [[nodiscard]] std::size_t line() const { return record_.line; }

    /// Empty where the column or the cell is missing.
    [[nodiscard]] std::string cell(std::string_view column) const {
        const auto place = places_.find(column);
        return place == places_.end() || place->second >= record_.cells.size()
                   ? std::string()
                   : record_.cells[place->second];
    }

    [[nodiscard]] Result<std::optional<double>>
    number(std::string_view column, Limits limits, const std::string& what) const {
        const std::string text = cell(column);
        if (text.empty()) {
            return std::optional<double>();
        }
        double value = 0.0;
        const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
        if (error != std::errc() || end != text.data() + text.size() || !limits.holds(value)) {
            return atCell(line(),
                          column,
                          text,
                          "give " + plainNumber(limits.low) + " to " + plainNumber(limits.high) +
                              " " + what + ", with a decimal point, or leave it empty");
        }
        return std::optional<double>(value);
    }

private:
    const CsvRecord& record_;
    const std::map<std::string_view, std::size_t>& places_;
};

Result<std::map<std::string_view, std::size_t>> columnsOf(const CsvRecord& header) {
    std::map<std::string_view, std::size_t> places;
    for (std::size_t i = 0; i < header.cells.size(); ++i) {
        for (const std::string_view column : kColumns) {
            if (header.cells[i] == column && !places.emplace(column, i).second) {
                return atCell(header.line, "column", header.cells[i], "name each column once");
            }
        }
    }
    if (places.count("choir") == 0 || places.count("key") == 0) {
        const bool semicolons =
            header.cells.size() == 1 && header.cells[0].find(';') != std::string::npos;
        return atCell(header.line,
                      "the first row",
                      header.cells.empty() ? "" : header.cells[0],
                      std::string("name the columns, choir and key at least") +
                          (semicolons ? "; save with commas instead of semicolons" : ""));
    }
    return places;
}

template <typename T>
void setMillimetre(std::optional<Millimetre>& to, const T& from) {
    if (from) {
        to = Millimetre(*from);
    }
}

Result<StringListRow> readRow(const Row& cells) {
    StringListRow row;
    row.line = cells.line();
    row.choir = textOfCell(cells.cell("choir"));
    if (row.choir.empty()) {
        return atCell(row.line, "choir", "", "give the choir's id, such as 8, 8b, 4 or 16");
    }
    const auto key = parseNote(cells.cell("key"));
    if (!key) {
        return atCell(
            row.line, "key", cells.cell("key"), "give a note, such as F#3 (C4 is middle C)");
    }
    row.key = *key;
    const std::string material = cells.cell("material");
    if (!material.empty()) {
        if (findMaterial(material) == nullptr) {
            return atCell(row.line, "material", material, "give one of " + materialIds());
        }
        row.material = material;
    }
    const auto length = cells.number("length_mm", kLengthLimits, "mm of speaking length");
    const auto diameter = cells.number("diameter_mm", kDiameterLimits, "mm of wire");
    const auto pin = cells.number("pin_diameter_mm", kPinLimits, "mm of tuning pin");
    const auto pinRow = cells.number("pin_row", kPinPlaceLimits, "rows from the player");
    const auto pinPlace = cells.number("pin_place", kPinPlaceLimits, "pins from the left");
    for (const auto* value : {&length, &diameter, &pin, &pinRow, &pinPlace}) {
        if (!*value) {
            return Unexpected<Error>(value->error());
        }
    }
    setMillimetre(row.length, *length);
    setMillimetre(row.diameter, *diameter);
    setMillimetre(row.pinDiameter, *pin);
    for (const auto& [column, value, to] :
         {std::tuple{"pin_row", *pinRow, &row.pinRow}, {"pin_place", *pinPlace, &row.pinPlace}}) {
        if (value && std::floor(*value) < *value) {
            return atCell(row.line, column, cells.cell(column), "give a whole number");
        }
        if (value) {
            *to = static_cast<int>(*value);
        }
    }
    return row;
}

/// The rows of one choir by course.
using Given = std::map<std::size_t, const StringListRow*>;

/// The given row with a value nearest to a course, of two equally near the lower; null where none has one.
const StringListRow* nearest(const Given& given,
                             std::size_t course,
                             const std::function<bool(const StringListRow&)>& has) {
    const StringListRow* best = nullptr;
    std::size_t bestDistance = 0;
    for (const auto& [at, row] : given) {
        const std::size_t distance = at > course ? at - course : course - at;
        if (has(*row) && (best == nullptr || distance < bestDistance)) {
            best = row;
            bestDistance = distance;
        }
    }
    return best;
}

/// Length at a course between the given ones, straight in log length over semitones.
double lengthBetween(const Instrument& instrument,
                     std::size_t choir,
                     const std::map<std::size_t, double>& lengths,
                     std::size_t course) {
    const auto upper = lengths.lower_bound(course);
    if (upper->first == course) {
        return upper->second;
    }
    const auto lower = std::prev(upper);
    const auto semitone = [&](std::size_t at) {
        return keyNote(instrument, StringId{choir, at}).midiNumber();
    };
    const double span = semitone(upper->first) - semitone(lower->first);
    const double place =
        span > 0.0 ? (semitone(course) - semitone(lower->first)) / span : 0.5; // split keys
    return lower->second * std::pow(upper->second / lower->second, place);
}

Result<void> fillLengths(AppliedStringList& applied,
                         std::size_t choirIndex,
                         const Given& given,
                         std::vector<FilledString>& filled) {
    Choir& choir = applied.instrument.choirs[choirIndex];
    std::map<std::size_t, double> lengths;
    for (const auto& [course, row] : given) {
        if (row->length) {
            lengths[course] = row->length->value();
        }
    }
    if (lengths.empty()) {
        return {};
    }
    const std::size_t last = choir.strings.size() - 1;
    for (const std::size_t end : {std::size_t{0}, last}) {
        if (lengths.count(end) == 0) {
            return failure(ErrorCode::UnreadableInput,
                           "choir " + choir.id + ": the length of its " +
                               (end == 0 ? "lowest" : "highest") + " string, key " +
                               toAscii(keyNote(applied.instrument, StringId{choirIndex, end})) +
                               ", is missing: add that row, other gaps are filled",
                           "choir " + choir.id);
        }
    }
    for (std::size_t course = 0; course <= last; ++course) {
        choir.strings[course].length =
            Millimetre(lengthBetween(applied.instrument, choirIndex, lengths, course));
        filled[course].length = lengths.count(course) == 0;
    }
    return {};
}

void fillWires(Choir& choir, const Given& given, std::vector<FilledString>& filled) {
    choir.pins.resize(choir.strings.size());
    for (std::size_t course = 0; course < choir.strings.size(); ++course) {
        StringMake& make = choir.strings[course];
        const auto own = given.find(course);
        const StringListRow* row = own == given.end() ? nullptr : own->second;
        if (const auto* near =
                nearest(given, course, [](const StringListRow& r) { return bool(r.diameter); })) {
            make.diameter = *near->diameter;
            filled[course].wire = filled[course].wire || near != row;
        }
        if (const auto* near =
                nearest(given, course, [](const StringListRow& r) { return bool(r.material); })) {
            make.material = *near->material;
            filled[course].wire = filled[course].wire || near != row;
        }
        if (const auto* near = nearest(
                given, course, [](const StringListRow& r) { return bool(r.pinDiameter); })) {
            make.pinDiameter = near->pinDiameter;
        }
        if (row != nullptr) {
            choir.pins[course].row = row->pinRow.value_or(choir.pins[course].row);
            choir.pins[course].place = row->pinPlace.value_or(choir.pins[course].place);
        }
    }
}

} // namespace

Result<std::vector<StringListRow>> parseStringList(std::string_view text) {
    const auto records = parseCsv(text);
    if (!records) {
        return Unexpected<Error>(records.error());
    }
    if (records->empty()) {
        return failure(
            ErrorCode::UnreadableInput,
            "the list is empty: the first row names the columns, choir and key at least");
    }
    const auto places = columnsOf(records->front());
    if (!places) {
        return Unexpected<Error>(places.error());
    }
    std::vector<StringListRow> rows;
    for (std::size_t i = 1; i < records->size(); ++i) {
        auto row = readRow(Row((*records)[i], *places));
        if (!row) {
            return Unexpected<Error>(row.error());
        }
        rows.push_back(std::move(row).value());
    }
    return rows;
}

std::string formatStringList(const Instrument& instrument) {
    std::string text = formatCsvRecord(std::vector<std::string>(kColumns.begin(), kColumns.end()));
    for (std::size_t c = 0; c < instrument.choirs.size(); ++c) {
        const Choir& choir = instrument.choirs[c];
        for (std::size_t course = 0; course < choir.strings.size(); ++course) {
            const StringMake& make = choir.strings[course];
            const PinPlace pin = course < choir.pins.size() ? choir.pins[course] : PinPlace{};
            text += formatCsvRecord({harmlessCell(choir.id),
                                     toAscii(keyNote(instrument, StringId{c, course})),
                                     plainNumber(make.length.value()),
                                     plainNumber(make.diameter.value()),
                                     make.material,
                                     make.pinDiameter ? plainNumber(make.pinDiameter->value()) : "",
                                     pin.row == 0 ? "" : std::to_string(pin.row),
                                     pin.place == 0 ? "" : std::to_string(pin.place)});
        }
    }
    return text;
}

Result<AppliedStringList> applyStringList(Instrument instrument,
                                          const std::vector<StringListRow>& rows) {
    AppliedStringList applied{std::move(instrument), {}};
    std::map<std::size_t, Given> byChoir;
    for (const StringListRow& row : rows) {
        const auto choir = choirOf(applied.instrument, row.choir);
        if (!choir) {
            std::string ids;
            for (const Choir& known : applied.instrument.choirs) {
                ids += (ids.empty() ? "" : ", ") + excerpt(known.id);
            }
            return atCell(row.line, "choir", row.choir, "give one of " + ids);
        }
        const std::size_t courses = applied.instrument.choirs[*choir].strings.size();
        std::optional<std::size_t> course;
        for (std::size_t i = 0; i < courses && !course; ++i) {
            if (keyNote(applied.instrument, StringId{*choir, i}) == row.key) {
                course = i;
            }
        }
        if (!course) {
            if (const auto enharmonic = stringOf(applied.instrument, *choir, row.key)) {
                course = enharmonic->course;
            }
        }
        if (!course) {
            return atCell(row.line,
                          "key",
                          toAscii(row.key),
                          "give a key of the compass, " +
                              toAscii(applied.instrument.compass.keys.front().note) + " to " +
                              toAscii(applied.instrument.compass.keys.back().note));
        }
        if (!byChoir[*choir].emplace(*course, &row).second) {
            return atCell(row.line, "key", toAscii(row.key), "give each string of a choir once");
        }
    }
    for (const auto& [choir, given] : byChoir) {
        std::vector<FilledString> filled(applied.instrument.choirs[choir].strings.size());
        const auto lengths = fillLengths(applied, choir, given, filled);
        if (!lengths) {
            return Unexpected<Error>(lengths.error());
        }
        fillWires(applied.instrument.choirs[choir], given, filled);
        for (std::size_t course = 0; course < filled.size(); ++course) {
            filled[course].string = StringId{choir, course};
            if (filled[course].length || filled[course].wire) {
                applied.filled.push_back(filled[course]);
            }
        }
    }
    return applied;
}

} // namespace quillbench
