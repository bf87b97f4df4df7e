#pragma once

#include <catch2/catch.hpp>

#include <cstdlib>
#include <fstream>
#include <map>
#include <string>
#include <vector>

namespace quillbench::test {

/// One row of a golden file, by the names in its first line.
class GoldenRow {
public:
    explicit GoldenRow(std::map<std::string, std::string> cells) : cells_(std::move(cells)) {}

    [[nodiscard]] std::string text(const std::string& column) const {
        const auto found = cells_.find(column);
        if (found == cells_.end()) {
            FAIL("golden file has no column " << column);
        }
        return found->second;
    }

    [[nodiscard]] double number(const std::string& column) const {
        const std::string cell = text(column);
        char* end = nullptr;
        const double value = std::strtod(cell.c_str(), &end);
        if (cell.empty() || *end != '\0') {
            FAIL("golden column " << column << " holds '" << cell << "', not a number");
        }
        return value;
    }

private:
    std::map<std::string, std::string> cells_;
};

inline std::vector<std::string> splitGoldenLine(const std::string& line) {
    std::vector<std::string> cells(1);
    bool quoted = false;
    for (const char c : line) {
        if (c == '"') {
            quoted = !quoted;
        } else if (c == ',' && !quoted) {
            cells.emplace_back();
        } else if (c != '\r') {
            cells.back() += c;
        }
    }
    return cells;
}

/// Reads tests/golden/NAME: commas, "…" around cells with commas, lines with # skipped. A missing or empty
/// file fails the test.
inline std::vector<GoldenRow> goldenRows(const std::string& name) {
    std::ifstream in(std::string(QUILLBENCH_GOLDEN_DIR) + "/" + name);
    std::vector<std::string> header;
    std::vector<GoldenRow> rows;
    for (std::string line; std::getline(in, line);) {
        if (line.empty() || line.front() == '#') {
            continue;
        }
        const auto cells = splitGoldenLine(line);
        if (header.empty()) {
            header = cells;
            continue;
        }
        if (cells.size() != header.size()) {
            FAIL(name << ": " << cells.size() << " cells instead of " << header.size() << ": "
                      << line);
        }
        std::map<std::string, std::string> row;
        for (std::size_t i = 0; i < cells.size(); ++i) {
            row[header[i]] = cells[i];
        }
        rows.emplace_back(std::move(row));
    }
    if (rows.empty()) {
        FAIL(name << ": golden file missing or empty");
    }
    return rows;
}

} // namespace quillbench::test
