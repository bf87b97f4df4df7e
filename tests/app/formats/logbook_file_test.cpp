#include "app/formats/csv.hpp"
#include "app/formats/logbook_file.hpp"
#include "tests/support/awkward_logbook.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <limits>

using namespace quillbench;
using namespace quillbench::test;

namespace {

std::string withText(std::string text, const std::string& from, const std::string& to) {
    const auto at = text.find(from);
    REQUIRE(at != std::string::npos);
    return text.replace(at, from.size(), to);
}

} // namespace

TEST_CASE("what is exported as JSON comes back to the last bit", "[unit]") {
    const LogbookContents before = awkwardLogbook();
    const std::string text = formatLogbook(before);
    const auto after = parseLogbook(text);
    REQUIRE(after);
    CHECK(formatLogbook(*after) == text);
    CHECK(after->readings[0].pitchHz == before.readings[0].pitchHz);
    CHECK(after->readings[0].inharmonicityU == before.readings[0].inharmonicityU);
    CHECK(std::signbit(after->readings[0].startCents));
    CHECK(after->remarks[0].text == kHostile);
    CHECK(after->remarks[0].at.milliseconds == 1790000000123);
    CHECK(after->remarks[0].at.offsetMinutes == 825);
    CHECK_FALSE(after->remarks[0].session);
    CHECK(text.find("\"at\":\"2026-09-21T14:13:20.123Z\",\"at_offset_min\":825") !=
          std::string::npos);
    // One object a line, whatever is in it.
    CHECK(std::count(text.begin(), text.end(), '\n') == 15);
}

TEST_CASE("what is exported as CSV comes back to the last bit", "[unit]") {
    const LogbookContents before = awkwardLogbook();
    const auto files = formatLogbookCsv(before);
    REQUIRE(files.size() == 14);
    const auto after = parseLogbookCsv(files);
    if (!after) {
        FAIL(after.error().text);
    }
    CHECK(formatLogbook(*after) == formatLogbook(before));
    CHECK(formatLogbookCsv(*after) == files);
}

TEST_CASE("no cell of an export begins like a formula", "[unit]") {
    for (const auto& [name, text] : formatLogbookCsv(awkwardLogbook())) {
        const auto records = parseCsv(text);
        REQUIRE(records);
        for (const CsvRecord& record : *records) {
            for (const std::string& cell : record.cells) {
                INFO(name << ": " << cell);
                const bool number =
                    !cell.empty() && cell.find_first_not_of("0123456789.e+-") == std::string::npos;
                const bool formula =
                    !cell.empty() && std::string("=+-@\t\r\n").find(cell[0]) != std::string::npos;
                CHECK((number || !formula));
            }
        }
    }
}

TEST_CASE("texts survive being made harmless", "[unit]") {
    for (const char* text : {"",
                             "plain",
                             "=1+1",
                             "'=1+1",
                             "''",
                             "'",
                             "  =1",
                             "-5",
                             "@SUM(A1)",
                             "\tx",
                             "\nx",
                             "it's",
                             "\uFF1D1"}) {
        const std::string cell = harmlessCell(text);
        CHECK(textOfCell(cell) == text);
    }
    CHECK(harmlessCell("=1") == "'=1");
    CHECK(harmlessCell("plain") == "plain");
}

TEST_CASE("an export that is not one is refused with line and field", "[unit]") {
    const std::string text = formatLogbook(awkwardLogbook());
    const auto refusal = [](const std::string& wrong) {
        const auto contents = parseLogbook(wrong);
        REQUIRE_FALSE(contents);
        CHECK(contents.error().text.find('\n') == std::string::npos);
        return contents.error().text;
    };
    CHECK(refusal("").find("empty") != std::string::npos);
    CHECK(refusal("not JSON").find("line 1") == 0);
    CHECK(refusal("[1]").find("line 1") == 0);
    CHECK(refusal("{\"schema\":1,\"kind\":\"reading\"}").find("does not begin") !=
          std::string::npos);
    CHECK(refusal(withText(
                      text, "\"schema\":1,\"kind\":\"string\"", "\"schema\":2,\"kind\":\"string\""))
              .find("newer version") != std::string::npos);
    CHECK(refusal(withText(text, "\"kind\":\"climate\"", "\"kind\":\"weather\""))
              .find("no table of a logbook") != std::string::npos);
    CHECK(refusal(withText(text, "\"course\":17", "\"course\":\"17\"")) ==
          "line 4: course is \"17\": give what an export of the logbook has there");
    CHECK(refusal(withText(text, "\"course\":17", "\"course\":1e99")).find("course") !=
          std::string::npos);
    CHECK(refusal(withText(text, "2026-09-21T14", "2026-09-41T14")).find("at is") !=
          std::string::npos);
}

TEST_CASE("a CSV export that is not one is refused with file, line and field", "[unit]") {
    auto files = formatLogbookCsv(awkwardLogbook());
    const auto file = std::find_if(
        files.begin(), files.end(), [](const NamedText& one) { return one.first == "string.csv"; });
    REQUIRE(file != files.end());
    const std::string good = file->second;
    const auto refusal = [&](const std::string& wrong) {
        file->second = wrong;
        const auto contents = parseLogbookCsv(files);
        REQUIRE_FALSE(contents);
        CHECK(contents.error().text.find("string.csv: ") == 0);
        return contents.error().text;
    };
    CHECK(refusal("").find("export_schema") != std::string::npos);
    CHECK(refusal(withText(good, ",17,", ",seventeen,")).find("line 2: course is \"seventeen\"") !=
          std::string::npos);
    CHECK(refusal(withText(good, "\r\n1,", "\r\n2,")).find("export_schema is \"2\"") !=
          std::string::npos);
    CHECK(refusal(good + "1,2\r\n").find("has 2 cells: give 6") != std::string::npos);
}
