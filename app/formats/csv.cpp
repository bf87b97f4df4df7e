#include "app/formats/csv.hpp"

#include <algorithm>
#include <array>
#include <utility>

namespace quillbench {

namespace {

constexpr std::size_t kMostCells = 64;
constexpr std::string_view kByteOrderMark = "\xef\xbb\xbf";

constexpr std::string_view kFormulaStarts = "=+-@\t\r\n'";

/// Full-width forms of = + - @, which some spreadsheets take for the plain ones.
constexpr std::array<std::string_view, 4> kWideStarts{
    "\xEF\xBC\x9D", "\xEF\xBC\x8B", "\xEF\xBC\x8D", "\xEF\xBC\xA0"};

bool looksLikeFormula(std::string_view text) {
    const std::size_t first = std::min(text.find_first_not_of(' '), text.size());
    const std::string_view rest = text.substr(first);
    return (!rest.empty() && kFormulaStarts.find(rest.front()) != std::string_view::npos) ||
           std::any_of(kWideStarts.begin(), kWideStarts.end(), [&](std::string_view wide) {
               return rest.substr(0, wide.size()) == wide;
           });
}

Unexpected<Error> atLine(std::size_t line, const std::string& text) {
    const std::string where = "line " + std::to_string(line);
    return failure(ErrorCode::UnreadableInput, where + ": " + text, where);
}

/// Takes one cell off the front of `text`; `line` counts line ends inside quotes.
Result<std::string> takeCell(std::string_view& text, std::size_t& line) {
    std::string cell;
    if (text.empty() || text.front() != '"') {
        const std::size_t end = std::min(text.find_first_of(",\r\n"), text.size());
        cell = text.substr(0, end);
        text.remove_prefix(end);
        return cell;
    }
    const std::size_t start = line;
    text.remove_prefix(1);
    while (!text.empty()) {
        const char c = text.front();
        text.remove_prefix(1);
        if (c != '"') {
            line += c == '\n' ? 1 : 0;
            cell += c;
        } else if (!text.empty() && text.front() == '"') {
            cell += '"';
            text.remove_prefix(1);
        } else if (text.empty() || text.find_first_of(",\r\n") == 0) {
            return cell;
        } else {
            return atLine(line,
                          "text after a closing quote; double a quote that belongs to the cell");
        }
    }
    return atLine(start, "a quote is opened and never closed");
}

bool blank(const CsvRecord& record) {
    return record.cells.size() == 1 && record.cells.front().empty();
}

} // namespace

Result<std::vector<CsvRecord>> parseCsv(std::string_view text, const CsvLimits& limits) {
    if (text.size() > limits.bytes) {
        return failure(ErrorCode::UnreadableInput,
                       "larger than " + std::to_string(limits.bytes >> 20U) +
                           " MiB, which no such list is");
    }
    if (text.substr(0, kByteOrderMark.size()) == kByteOrderMark) {
        text.remove_prefix(kByteOrderMark.size());
    }
    std::vector<CsvRecord> records;
    std::size_t line = 1;
    CsvRecord record;
    while (!text.empty()) {
        auto cell = takeCell(text, line);
        if (!cell) {
            return Unexpected<Error>(cell.error());
        }
        record.cells.push_back(std::move(cell).value());
        if (record.cells.size() > kMostCells) {
            return atLine(line, "more than 64 cells, which no such list has");
        }
        const bool more = !text.empty() && text.front() == ',';
        if (more) {
            text.remove_prefix(1);
            if (!text.empty()) {
                continue;
            }
            record.cells.emplace_back();
        }
        if (!text.empty() && text.front() == '\r') {
            text.remove_prefix(1);
        }
        if (!text.empty() && text.front() == '\n') {
            text.remove_prefix(1);
        }
        ++line;
        if (!blank(record)) {
            records.push_back(std::move(record));
        }
        record = CsvRecord{line, {}};
        if (records.size() > limits.records) {
            return atLine(line,
                          "more than " + std::to_string(limits.records) +
                              " rows, which no such list has");
        }
    }
    return records;
}

std::string formatCsvRecord(const std::vector<std::string>& cells) {
    std::string text;
    for (std::size_t i = 0; i < cells.size(); ++i) {
        text += i == 0 ? "" : ",";
        if (cells[i].find_first_of(",\"\r\n") == std::string::npos) {
            text += cells[i];
            continue;
        }
        text += '"';
        for (const char c : cells[i]) {
            text += c;
            text += c == '"' ? "\"" : "";
        }
        text += '"';
    }
    return text + "\r\n";
}

std::string harmlessCell(const std::string& text) {
    return looksLikeFormula(text) ? "'" + text : text;
}

std::string textOfCell(const std::string& cell) {
    const bool marked = !cell.empty() && cell.front() == '\'' && looksLikeFormula(cell.substr(1));
    return marked ? cell.substr(1) : cell;
}

} // namespace quillbench
