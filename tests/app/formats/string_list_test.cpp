#include "app/formats/csv.hpp"
#include "app/formats/string_list.hpp"
#include "core/instrument/examples.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <string>
#include <utility>
#include <vector>

using namespace quillbench;

namespace {

std::string listError(const std::string& text) {
    const auto rows = parseStringList(text);
    if (!rows) {
        return rows.error().text;
    }
    const auto applied = applyStringList(*findExample("spinet"), *rows);
    REQUIRE_FALSE(applied);
    return applied.error().text;
}

AppliedStringList applied(const std::string& text) {
    const auto rows = parseStringList(text);
    if (!rows) {
        FAIL(rows.error().text);
    }
    auto result = applyStringList(*findExample("spinet"), *rows);
    if (!result) {
        FAIL(result.error().text);
    }
    return std::move(result).value();
}

} // namespace

TEST_CASE("comma separated values follow RFC 4180", "[unit]") {
    // RFC 4180 §2: rules 1 to 7, with its own examples of quoting (from memory).
    const auto records =
        parseCsv("aaa,bbb,ccc\r\n\"aaa\",\"b\r\nbb\",\"ccc\"\r\n\"aaa\",\"b\"\"bb\",ccc\r\n,,");
    REQUIRE(records);
    REQUIRE(records->size() == 4);
    CHECK((*records)[0].cells == std::vector<std::string>{"aaa", "bbb", "ccc"});
    CHECK((*records)[1].cells == std::vector<std::string>{"aaa", "b\r\nbb", "ccc"});
    CHECK((*records)[2].cells == std::vector<std::string>{"aaa", "b\"bb", "ccc"});
    CHECK((*records)[2].line == 4);
    CHECK((*records)[3].cells == std::vector<std::string>{"", "", ""});
    CHECK(formatCsvRecord({"a", "b,c", "d\"e", "f\ng", ""}) ==
          "a,\"b,c\",\"d\"\"e\",\"f\ng\",\r\n");
    CHECK(parseCsv("\xef\xbb\xbf"
                   "a\n\n\nb\n")
              ->size() == 2);
    CHECK(parseCsv("a\n\"b\nc").error().text.find("line 2: a quote is opened") == 0);
    CHECK(parseCsv("\"a\"b").error().text.find("line 1: text after a closing quote") == 0);
    CHECK(parseCsv("")->empty());
}

TEST_CASE("records come back from what was written", "[unit]") {
    const std::vector<std::string> cells{"", "plain", "a,b", "\"", "\r\n", "caf\u00e9", ","};
    const auto records = parseCsv(formatCsvRecord(cells));
    REQUIRE(records);
    REQUIRE(records->size() == 1);
    CHECK(records->front().cells == cells);
}

TEST_CASE("a whole list comes back as the instrument it was written from", "[unit]") {
    for (const Instrument& instrument : exampleInstruments()) {
        INFO(instrument.id);
        const auto rows = parseStringList(formatStringList(instrument));
        if (!rows) {
            FAIL(rows.error().text);
        }
        const auto result = applyStringList(instrument, *rows);
        if (!result) {
            FAIL(result.error().text);
        }
        CHECK(result->instrument == instrument);
        CHECK(result->filled.empty());
    }
}

TEST_CASE("gaps in lengths are straight lines in log length over semitones", "[unit]") {
    // G1 1600 mm, G2 800 mm: a halving in the octave, so C#2 half way is 1600/sqrt(2).
    const auto list =
        applied("choir,key,length_mm,remark\n8,G1,1600,\"x, y\"\n8,G2,800,\n8,D6,150,\n");
    const auto& strings = list.instrument.choirs[0].strings;
    CHECK(strings[0].length.value() == 1600.0);
    CHECK(strings[6].length.value() == Approx(1600.0 / std::sqrt(2.0)).epsilon(1e-12));
    CHECK(strings[12].length.value() == 800.0);
    for (std::size_t i = 14; i < strings.size(); ++i) {
        CHECK(strings[i].length / strings[i - 1].length ==
              Approx(std::pow(150.0 / 800.0, 1.0 / 43.0)).epsilon(1e-12));
    }
    CHECK(list.filled.size() == strings.size() - 3);
    CHECK(list.filled.front().string.course == 1);
    CHECK(strings[20].material == findExample("spinet")->choirs[0].strings[20].material);
}

TEST_CASE("wire of a gap is that of the nearest given string, the lower of two", "[unit]") {
    const auto list = applied("key,choir,diameter_mm,material,pin_row,pin_place\n"
                              "G1,8,0.6,red-brass,2,7\nB1,8,0.5,yellow-brass,,\nD6,8,0.2,iron,,\n");
    const auto& strings = list.instrument.choirs[0].strings;
    CHECK(strings[1].diameter.value() == 0.6);
    CHECK(strings[2].diameter.value() == 0.6); // A1, as near to G1 as to B1
    CHECK(strings[3].diameter.value() == 0.5);
    CHECK(strings[3].material == "yellow-brass");
    CHECK(strings.back().diameter.value() == 0.2);
    CHECK(list.instrument.choirs[0].pins[0] == PinPlace{2, 7});
    CHECK(list.instrument.choirs[0].pins[4] == findExample("spinet")->choirs[0].pins[4]);
    CHECK(strings[0].length == findExample("spinet")->choirs[0].strings[0].length);
}

TEST_CASE("faults of a list are named with line, column, value and mending", "[unit]") {
    const std::vector<std::pair<std::string, std::string>> faults{
        {"", "the list is empty"},
        {"choir;key;length_mm\n8;A3;400\n", "save with commas instead of semicolons"},
        {"key,length_mm\nA3,400\n", "name the columns, choir and key at least"},
        {"choir,key,key\n", "name each column once"},
        {"choir,key\n,A3\n", "line 2, choir is '': give the choir's id"},
        {"choir,key\n8,H3\n", "line 2, key is 'H3': give a note"},
        {"choir,key\n4,A3\n", "line 2, choir is '4': give one of 8"},
        {"choir,key\n8,A7\n", "line 2, key is 'A7': give a key of the compass, G1 to D6"},
        {"choir,key\n8,A3\n8,A3\n", "line 3, key is 'A3': give each string of a choir once"},
        {"choir,key,length_mm\n8,A3,long\n", "line 2, length_mm is 'long': give 20 to 4000 mm"},
        {"choir,key,length_mm\n8,A3,\"400,5\"\n", "with a decimal point"},
        {"choir,key,length_mm\n8,A3,nan\n", "line 2, length_mm is 'nan'"},
        {"choir,key,length_mm\n8,A3,1e9\n", "give 20 to 4000 mm"},
        {"choir,key,diameter_mm\n8,A3,23\n", "line 2, diameter_mm is '23': give 0.05 to 3"},
        {"choir,key,material\n8,A3,tin\n", "line 2, material is 'tin': give one of iron, steel"},
        {"choir,key,pin_diameter_mm\n8,A3,0\n", "line 2, pin_diameter_mm is '0': give 2 to 12"},
        {"choir,key,pin_row\n8,A3,-1\n", "line 2, pin_row is '-1'"},
        {"choir,key,pin_row\n8,A3,1.5\n", "line 2, pin_row is '1.5': give a whole number"},
        {"choir,key,pin_place\n8,A3,x\n", "line 2, pin_place is 'x'"},
        {"choir,key,length_mm\n8,A3,400\n", "lowest string, key G1, is missing"},
        {"choir,key,length_mm\n8,G1,1600\n", "highest string, key D6, is missing"},
    };
    for (const auto& [text, says] : faults) {
        const std::string error = listError(text);
        INFO(error);
        CHECK(error.find(says) != std::string::npos);
        CHECK(error.find('\n') == std::string::npos);
    }
}

TEST_CASE("a choir that is named like a formula is exported harmless and comes back", "[unit]") {
    Instrument instrument = *findExample("virginal");
    instrument.choirs[0].id = "=1+1";
    const std::string list = formatStringList(instrument);
    CHECK(list.find("\r\n=") == std::string::npos);
    CHECK(list.find("\r\n'=1+1,") != std::string::npos);
    const auto rows = parseStringList(list);
    REQUIRE(rows);
    CHECK(rows->front().choir == "=1+1");
}

TEST_CASE("a complaint about a cell stays on its line", "[unit]") {
    const auto rows = parseStringList("choir,key\n8,\"A3\n\xE9\"\n");
    REQUIRE_FALSE(rows);
    CHECK(rows.error().text.find("key is 'A3\?\?'") != std::string::npos);
}
