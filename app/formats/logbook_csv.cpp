#include "app/formats/csv.hpp"
#include "app/formats/logbook_file.hpp"
#include "core/logbook/summary.hpp"
#include "core/support/excerpt.hpp"

#include <array>
#include <charconv>
#include <map>
#include <type_traits>

namespace quillbench {

namespace {

constexpr CsvLimits kLimits{std::size_t{512} << 20U, 5000000};

template <typename Number>
std::string numberText(Number value) {
    std::array<char, 40> text{};
    const auto end = std::to_chars(text.data(), text.data() + text.size(), value);
    return {text.data(), end.ptr};
}

std::string cellOf(const std::string& value) {
    return harmlessCell(value);
}

template <typename Number>
std::string cellOf(const Number& value) {
    return numberText(value);
}

template <typename T>
std::string cellOf(const std::optional<T>& value) {
    return value ? cellOf(*value) : std::string();
}

bool take(const std::string& cell, std::string& value) {
    value = textOfCell(cell);
    return true;
}

template <typename Number>
bool take(const std::string& cell, Number& value) {
    const char* end = cell.data() + cell.size();
    const auto read = std::from_chars(cell.data(), end, value);
    return read.ec == std::errc() && read.ptr == end;
}

template <typename T>
bool take(const std::string& cell, std::optional<T>& value) {
    if (cell.empty()) {
        value.reset();
        return true;
    }
    return take(cell, value.emplace());
}

template <typename Record>
std::vector<std::string> namesOf() {
    std::vector<std::string> names{"export_schema"};
    const Record record;
    Record::fields(record, [&](const char* name, const auto& value) {
        names.emplace_back(name);
        if constexpr (std::is_same_v<std::decay_t<decltype(value)>, Instant>) {
            names.push_back(std::string(name) + "_offset_min");
        }
    });
    return names;
}

template <typename Record>
std::vector<std::string> cellsOf(const Record& record) {
    std::vector<std::string> cells{numberText(kLogbookExportSchema)};
    Record::fields(record, [&](const char* /*name*/, const auto& value) {
        if constexpr (std::is_same_v<std::decay_t<decltype(value)>, Instant>) {
            cells.push_back(toText(value));
            cells.push_back(numberText(value.offsetMinutes));
        } else {
            cells.push_back(cellOf(value));
        }
    });
    return cells;
}

/// One row; the complaint is empty where it is whole. `cells` by the name of their column.
template <typename Record>
std::string readRow(const std::map<std::string, std::string>& cells, Record& record) {
    std::string complaint;
    const auto cell = [&](const std::string& name) {
        const auto found = cells.find(name);
        return found == cells.end() ? std::string() : found->second;
    };
    Record::fields(record, [&](const char* name, auto& value) {
        bool good = false;
        if constexpr (std::is_same_v<std::decay_t<decltype(value)>, Instant>) {
            const auto milliseconds = parseUniversalTime(cell(name));
            value.milliseconds = milliseconds.value_or(0);
            good =
                milliseconds && take(cell(std::string(name) + "_offset_min"), value.offsetMinutes);
        } else {
            good = take(cell(name), value);
        }
        if (!good && complaint.empty()) {
            complaint = std::string(name) + " is \"" + excerpt(cell(name)) +
                        "\": give what an export of the logbook has there";
        }
    });
    if (const Result<void> sound = checked(record); complaint.empty() && !sound) {
        complaint = sound.error().text;
    }
    return complaint;
}

template <typename Record>
Result<void> readTable(const NamedText& file, std::vector<Record>& table) {
    const auto wrong = [&](std::size_t line, const std::string& text) {
        return failure(ErrorCode::UnreadableInput,
                       file.first + ": line " + std::to_string(line) + ": " + text,
                       file.first);
    };
    const auto records = parseCsv(file.second, kLimits);
    if (!records) {
        return failure(
            ErrorCode::UnreadableInput, file.first + ": " + records.error().text, file.first);
    }
    if (records->empty() || records->front().cells.front() != "export_schema") {
        return wrong(1, "does not begin with export_schema; give an export of the logbook");
    }
    const std::vector<std::string>& names = records->front().cells;
    for (std::size_t i = 1; i < records->size(); ++i) {
        const CsvRecord& row = (*records)[i];
        if (row.cells.size() != names.size()) {
            return wrong(row.line,
                         "has " + std::to_string(row.cells.size()) + " cells: give " +
                             std::to_string(names.size()));
        }
        std::map<std::string, std::string> cells;
        for (std::size_t column = 0; column < names.size(); ++column) {
            cells[names[column]] = row.cells[column];
        }
        int schema = 0;
        if (!take(row.cells.front(), schema) || schema < 1 || schema > kLogbookExportSchema) {
            return wrong(row.line,
                         "export_schema is \"" + excerpt(row.cells.front()) +
                             "\": this version reads 1");
        }
        Record record;
        if (std::string complaint = readRow(cells, record); !complaint.empty()) {
            return wrong(row.line, complaint);
        }
        table.push_back(std::move(record));
    }
    return {};
}

NamedText overviewOf(const LogbookContents& contents) {
    std::string text = formatCsvRecord({"session",
                                        "wall_clock",
                                        "instrument",
                                        "choir",
                                        "note",
                                        "state",
                                        "deviation_cents",
                                        "deviation_cents_u",
                                        "pitch_hz",
                                        "target_hz",
                                        "warnings"});
    for (const SessionSummary& summary : summarise(contents)) {
        for (const HoldingReading& one : holdingReadings(contents, summary.session.seq)) {
            text += formatCsvRecord({numberText(summary.session.seq),
                                     wallClockText(one.reading.at),
                                     harmlessCell(summary.name),
                                     harmlessCell(one.string.choir),
                                     harmlessCell(one.reading.note),
                                     one.state,
                                     numberText(one.reading.deviationCents),
                                     numberText(one.reading.deviationCentsU),
                                     numberText(one.reading.pitchHz),
                                     numberText(one.reading.targetHz),
                                     harmlessCell(one.reading.warnings)});
        }
    }
    return {"overview.csv", text};
}

} // namespace

std::vector<NamedText> formatLogbookCsv(const LogbookContents& contents) {
    std::vector<NamedText> files;
    LogbookContents::tables(contents, [&](const auto& table) {
        using Record = typename std::decay_t<decltype(table)>::value_type;
        std::string text = formatCsvRecord(namesOf<Record>());
        for (const Record& record : table) {
            text += formatCsvRecord(cellsOf(record));
        }
        files.emplace_back(std::string(Record::kTable) + ".csv", text);
    });
    files.push_back(overviewOf(contents));
    return files;
}

Result<LogbookContents> parseLogbookCsv(const std::vector<NamedText>& files) {
    LogbookContents contents;
    Result<void> outcome;
    LogbookContents::tables(contents, [&](auto& table) {
        using Record = typename std::decay_t<decltype(table)>::value_type;
        for (const NamedText& file : files) {
            if (outcome && file.first == std::string(Record::kTable) + ".csv") {
                outcome = readTable(file, table);
            }
        }
    });
    if (!outcome) {
        return Unexpected<Error>(outcome.error());
    }
    return contents;
}

} // namespace quillbench
