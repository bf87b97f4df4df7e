#include "app/formats/csv.hpp"
#include "app/formats/temperament_file.hpp"
#include "core/temperament/catalogue.hpp"
#include "tests/support/temporary_folder.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <cmath>
#include <string>

using namespace quillbench;
using Json = nlohmann::ordered_json;

namespace {

Json good() {
    return Json{
        {"schema", 1},
        {"kind", "temperament"},
        {"id", "example-of-mine"},
        {"name", "Example of mine (invented)"},
        {"first", "Eb"},
        {"fifths",
         {"0", "0", "-1/6P", "-1/6P", "-1/6P", "-1/6P", "-1/6P", "-1/6P", "0", "0", "0", "0"}}};
}

std::string refusal(const Json& json) {
    const auto file = parseTemperament(json.dump());
    REQUIRE_FALSE(file.hasValue());
    CHECK(file.error().code == ErrorCode::UnreadableInput);
    return file.error().text;
}

bool says(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

} // namespace

TEST_CASE("a temperament of one's own is read from fifths and from cents", "[unit]") {
    const auto fifths = parseTemperament(good().dump());
    REQUIRE(fifths.hasValue());
    const Temperament& vallotti = *findTemperament("vallotti");
    Json cents = good();
    cents.erase("fifths");
    cents.erase("first");
    for (const PitchClass& note : vallotti.notes()) {
        CHECK(fifths->temperament.centsFromC(note).value() ==
              Approx(vallotti.centsFromC(note).value()).margin(1e-9));
        cents["cents"][toAscii(note)] = vallotti.centsFromC(note).value();
    }
    const auto read = parseTemperament(cents.dump());
    REQUIRE(read.hasValue());
    for (const PitchClass& note : vallotti.notes()) {
        CHECK(read->temperament.centsFromC(note).value() ==
              Approx(vallotti.centsFromC(note).value()).margin(1e-9));
    }
    CHECK(fifths->temperament.description().status == DefinitionStatus::Own);
}

TEST_CASE("every temperament of the catalogue survives its file exactly", "[unit]") {
    for (const Temperament& each : catalogue()) {
        INFO(each.id());
        const auto again = parseTemperament(formatTemperament({each, ""}));
        REQUIRE(again.hasValue());
        CHECK(again->temperament.id() == each.id());
        CHECK(again->temperament.description().disagreement == each.description().disagreement);
        REQUIRE(again->temperament.fifths().size() == each.fifths().size());
        for (std::size_t i = 0; i < each.fifths().size(); ++i) {
            CHECK(again->temperament.fifths()[i] == each.fifths()[i]);
        }
    }
    const auto split = findTemperament("meantone-quarter")
                           ->extended(*parsePitchClass("Ab"), *parsePitchClass("D#"));
    const auto again = parseTemperament(formatTemperament({*split, ""}));
    REQUIRE(again.hasValue());
    CHECK(again->temperament.notes().size() == 14);
    CHECK(again->temperament.closes().value() == Approx(-41.058859).margin(1e-6));
}

TEST_CASE("fields that this version does not know are kept", "[unit]") {
    Json json = good();
    json["colour_of_the_lid"] = "green";
    json["later"] = Json{{"a", 1}, {"b", {1, 2, 3}}};
    const auto file = parseTemperament(json.dump());
    REQUIRE(file.hasValue());
    const Json again = Json::parse(formatTemperament(*file));
    CHECK(again["colour_of_the_lid"] == "green");
    CHECK(again["later"] == json["later"]);
    CHECK(again["fifths"][2] == "-1/6P");
}

TEST_CASE("each fault is named with field, value and mending", "[unit]") {
    Json json = good();
    json["schema"] = 2;
    CHECK(says(refusal(json), "schema is 2"));
    json = good();
    json["kind"] = "instrument";
    CHECK(says(refusal(json), "kind is \"instrument\""));
    json = good();
    json.erase("name");
    CHECK(says(refusal(json), "name is missing"));
    json = good();
    json["fifths"][4] = "-1/6Q";
    CHECK(says(refusal(json), "fifths[4]"));
    CHECK(says(refusal(json), "-1/6Q"));
    json["fifths"][4] = 250;
    CHECK(says(refusal(json), "fifths[4] is 250: give -100 to 100"));
    json["fifths"][4] = Json::array();
    CHECK(says(refusal(json), "fifths[4] is array"));
    json = good();
    json["fifths"][4] = "-1/12P";
    CHECK(says(refusal(json), "open by +1.955 cents"));
    json = good();
    json["fifths"].erase(0);
    json["fifths"].erase(0);
    CHECK(says(refusal(json), "a list of 10"));
    json = good();
    json["first"] = "X";
    CHECK(says(refusal(json), "first is 'X'"));
    json = good();
    json["cents"] = Json{{"C", 0}};
    CHECK(says(refusal(json), "together"));
    json.erase("fifths");
    CHECK(says(refusal(json), "1 notes given"));
    json["cents"] = Json{{"C", "zero"}};
    CHECK(says(refusal(json), "cents.C is string"));
    json["cents"] = Json{{"Cx", 0}};
    CHECK(says(refusal(json), "cents.Cx"));
    json["cents"] = 5;
    CHECK(says(refusal(json), "cents is number"));
    json = good();
    json["source"] = std::string(2001, 'x');
    CHECK(says(refusal(json), "2000 bytes"));
    CHECK_FALSE(parseTemperament("{").hasValue());
    CHECK_FALSE(parseTemperament("[]").hasValue());
    CHECK_FALSE(parseTemperament("").hasValue());
}

TEST_CASE("eleven fifths leave the twelfth to be computed", "[unit]") {
    Json json = good();
    json["fifths"].erase(11);
    const auto file = parseTemperament(json.dump());
    REQUIRE(file.hasValue());
    CHECK(file->temperament.fifths().back().isPure());
    json["fifths"] = Json::array();
    for (int i = 0; i < 11; ++i) {
        json["fifths"].push_back(-2.0);
    }
    const auto cents = parseTemperament(json.dump());
    REQUIRE(cents.hasValue());
    CHECK(cents->temperament.fifths().back().cents().value() == Approx(-1.460010).margin(1e-6));
}

TEST_CASE("a temperament is named by id, short name or file", "[unit]") {
    CHECK(loadTemperament("equal")->id() == "equal");
    CHECK(loadTemperament("K3")->id() == "kirnberger-3");
    const auto unknown = loadTemperament("vallottti");
    REQUIRE_FALSE(unknown.hasValue());
    CHECK(unknown.error().code == ErrorCode::BadArgument);
    CHECK(says(unknown.error().text, "perhaps vallotti"));
    const test::TemporaryFolder folder;
    const auto path = folder.path() / "mine.json";
    const auto file = parseTemperament(good().dump());
    REQUIRE(writeTemperamentFile(path, *file).hasValue());
    CHECK(loadTemperament(path.string())->id() == "example-of-mine");
    const auto missing = loadTemperament((folder.path() / "none.json").string());
    REQUIRE_FALSE(missing.hasValue());
    CHECK(missing.error().code == ErrorCode::UnreadableInput);
    CHECK(says(missing.error().text, "none.json"));
}

TEST_CASE("the table of pitches has one line a key", "[unit]") {
    const TunedScale scale{*findTemperament("vallotti"), ReferencePitch{Hertz(415.0)}};
    const auto records = parseCsv(formatScaleCsv(scale, *parseNote("A3"), *parseNote("A4")));
    REQUIRE(records.hasValue());
    REQUIRE(records->size() == 14);
    CHECK((*records)[0].cells[2] == "hz");
    CHECK((*records)[13].cells[0] == "A4");
    CHECK((*records)[13].cells[1] == "69");
    CHECK((*records)[13].cells[2] == "415.000000000");
    CHECK((*records)[4].cells[0] == "C4");
    CHECK((*records)[4].cells[4] == "5.865003");
}
