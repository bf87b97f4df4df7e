#include "app/formats/logbook_file.hpp"

#include "app/formats/json_fields.hpp"
#include "core/support/excerpt.hpp"

#include <algorithm>
#include <limits>
#include <type_traits>

namespace quillbench {

namespace {

constexpr std::size_t kLongestLine = std::size_t{16} << 20U; // bytes

void put(Json& json, const std::string& name, const Instant& value) {
    json[name] = toText(value);
    json[name + "_offset_min"] = value.offsetMinutes;
}

template <typename T>
void put(Json& json, const std::string& name, const T& value) {
    json[name] = value;
}

template <typename T>
void put(Json& json, const std::string& name, const std::optional<T>& value) {
    json[name] = value ? Json(*value) : Json();
}

Json lineOf(std::string_view kind) {
    return {{"schema", kLogbookExportSchema}, {"kind", kind}, {"id", nullptr}, {"status", "ok"}};
}

/// Reads one field; false where it is missing or of another kind.
bool take(const Json& json, std::int64_t& value) {
    const bool good = json.is_number_integer();
    value = good ? json.get<std::int64_t>() : 0;
    return good;
}

bool take(const Json& json, int& value) {
    std::int64_t wide = 0;
    const bool good = take(json, wide) && wide >= std::numeric_limits<int>::min() &&
                      wide <= std::numeric_limits<int>::max();
    value = good ? static_cast<int>(wide) : 0;
    return good;
}

bool take(const Json& json, double& value) {
    const bool good = json.is_number();
    value = good ? json.get<double>() : 0.0;
    return good;
}

bool take(const Json& json, std::string& value) {
    const bool good = json.is_string();
    value = good ? json.get<std::string>() : std::string();
    return good;
}

template <typename T>
bool take(const Json& json, std::optional<T>& value) {
    if (json.is_null()) {
        value.reset();
        return true;
    }
    return take(json, value.emplace());
}

bool takeInstant(const Json& row, const std::string& name, Instant& value) {
    const auto at = row.find(name);
    const auto offset = row.find(name + "_offset_min");
    if (at == row.end() || offset == row.end() || !at->is_string()) {
        return false;
    }
    const auto milliseconds = parseUniversalTime(at->get<std::string>());
    value.milliseconds = milliseconds.value_or(0);
    return milliseconds.has_value() && take(*offset, value.offsetMinutes);
}

std::string shown(const Json& row, const std::string& name) {
    const auto found = row.find(name);
    if (found == row.end()) {
        return "missing";
    }
    std::string text = found->dump(-1, ' ', true, Json::error_handler_t::replace);
    constexpr std::size_t kMost = 40;
    return text.size() > kMost ? text.substr(0, kMost) + "..." : text;
}

Unexpected<Error> atExportLine(std::size_t line, const std::string& text) {
    const std::string where = "line " + std::to_string(line);
    return failure(ErrorCode::UnreadableInput, where + ": " + text, where);
}

/// One row; the complaint is empty where it is whole.
template <typename Record>
std::string readRow(const Json& row, Record& record) {
    if (!row.is_object()) {
        return "row is no object, { ... }";
    }
    std::string complaint;
    Record::fields(record, [&](const char* name, auto& value) {
        if (!complaint.empty()) {
            return;
        }
        bool good = false;
        if constexpr (std::is_same_v<std::decay_t<decltype(value)>, Instant>) {
            good = takeInstant(row, name, value);
        } else {
            const auto found = row.find(name);
            good = found != row.end() && take(*found, value);
        }
        if (!good) {
            complaint = std::string(name) + " is " + shown(row, name) +
                        ": give what an export of the logbook has there";
        }
    });
    if (complaint.empty()) {
        if (const Result<void> sound = checked(record); !sound) {
            complaint = sound.error().text;
        }
    }
    return complaint;
}

/// Puts a row into its table; the complaint is empty where that could be done.
std::string addRow(const Json& row, const std::string& kind, LogbookContents& contents) {
    std::string complaint = "kind is \"" + excerpt(kind) + "\": no table of a logbook";
    LogbookContents::tables(contents, [&](auto& table) {
        using Record = typename std::decay_t<decltype(table)>::value_type;
        if (Record::kTable == kind) {
            Record record;
            complaint = readRow(row, record);
            table.push_back(std::move(record));
        }
    });
    return complaint;
}

} // namespace

std::string formatLogbook(const LogbookContents& contents) {
    const auto written = [](const Json& json) {
        return json.dump(-1, ' ', false, Json::error_handler_t::replace) + "\n";
    };
    std::string text = written(lineOf("logbook"));
    LogbookContents::tables(contents, [&](const auto& table) {
        for (const auto& record : table) {
            using Record = std::decay_t<decltype(record)>;
            Json json = lineOf(Record::kTable);
            Record::fields(record, [&](const char* name, const auto& value) {
                put(json["row"], name, value);
            });
            text += written(json);
        }
    });
    return text;
}

Result<LogbookContents> parseLogbook(std::string_view text) {
    LogbookContents contents;
    bool begun = false;
    for (std::size_t line = 1; !text.empty(); ++line) {
        const std::size_t end = std::min(text.find('\n'), text.size());
        const std::string_view one = text.substr(0, end);
        text.remove_prefix(std::min(end + 1, text.size()));
        if (one.empty()) {
            continue;
        }
        Result<Json> row = parseJson(one, kLongestLine);
        if (!row || !row->is_object()) {
            return atExportLine(
                line, "not one JSON object, as an export of the logbook has on each line");
        }
        int schema = 0;
        std::string kind;
        if (!row->contains("schema") || !take((*row)["schema"], schema) || !row->contains("kind") ||
            !take((*row)["kind"], kind)) {
            return atExportLine(line, "has no schema and kind; give an export of the logbook");
        }
        if (schema > kLogbookExportSchema) {
            return atExportLine(line,
                                "written by a newer version (schema " + std::to_string(schema) +
                                    "); import it with that version");
        }
        if (!begun && kind != "logbook") {
            return atExportLine(line, "does not begin an export of the logbook (kind \"logbook\")");
        }
        if (!begun) {
            begun = true;
            continue;
        }
        std::string complaint =
            row->contains("row") ? addRow((*row)["row"], kind, contents) : "has no row";
        if (!complaint.empty()) {
            return atExportLine(line, complaint);
        }
    }
    if (!begun) {
        return failure(ErrorCode::UnreadableInput, "empty; give an export of the logbook");
    }
    return contents;
}

} // namespace quillbench
