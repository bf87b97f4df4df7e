#include "app/formats/instrument_file.hpp"
#include "app/formats/json_fields.hpp"
#include "core/instrument/compass.hpp"
#include "core/instrument/examples.hpp"
#include "core/support/random.hpp"
#include "tests/support/temporary_folder.hpp"

#include <catch2/catch.hpp>

#include <functional>
#include <string>
#include <vector>

using namespace quillbench;

namespace {

Json exampleJson(const char* id) {
    const Instrument* example = findExample(id);
    REQUIRE(example != nullptr);
    return Json::parse(formatInstrument({*example, ""}));
}

/// What reading says after `change` was done to the two-manual example.
Error errorAfter(const std::function<void(Json&)>& change) {
    Json json = exampleJson("double-8-8-4");
    change(json);
    const auto file = parseInstrument(json.dump());
    REQUIRE_FALSE(file);
    CHECK(file.error().code == ErrorCode::UnreadableInput);
    CHECK(file.error().text.find('\n') == std::string::npos);
    return file.error();
}

struct Fault {
    const char* field; ///< where the complaint must point
    const char* says;  ///< what it must contain: value, allowed range or the way to mend it
    std::function<void(Json&)> change;
};

Json& firstString(Json& json) {
    return json["choirs"][1]["strings"][12];
}

} // namespace

TEST_CASE("every example comes back from its file as it was", "[unit]") {
    for (const Instrument& instrument : exampleInstruments()) {
        INFO(instrument.id);
        const std::string text = formatInstrument({instrument, ""});
        const auto file = parseInstrument(text);
        if (!file) {
            FAIL(file.error().text);
        }
        CHECK(file->instrument == instrument);
        CHECK(formatInstrument(*file) == text);
    }
}

TEST_CASE("broken octaves, split sharps, doglegs and missing pins come back too", "[unit]") {
    const auto note = parseNote("C6");
    const auto dSharp = parsePitchClass("D#");
    REQUIRE(note);
    REQUIRE(dSharp);
    Instrument instrument = *findExample("double-8-8-4");
    instrument.compass = withSplitSharps(brokenOctaveCE(*note), {*dSharp});
    instrument.registers[1].dogleg = true;
    instrument.coupler = Coupler::Dogleg;
    instrument.buffChoir.reset();
    const std::size_t keys = instrument.compass.keys.size();
    for (Choir& choir : instrument.choirs) {
        choir.strings.resize(keys);
        choir.pins.assign(keys, PinPlace{});
        choir.strings[3].pinDiameter.reset();
    }
    const auto file = parseInstrument(formatInstrument({instrument, ""}));
    if (!file) {
        FAIL(file.error().text);
    }
    CHECK(file->instrument == instrument);
}

TEST_CASE("fields of others survive, each at its place, also when ours change", "[unit]") {
    Json json = exampleJson("double-8-8-4");
    json["owner_note"] = "lid hinge loose";
    json["compass"]["ivory"] = true;
    json["compass"]["keys"][5]["worn"] = 0.3;
    json["manuals"][1]["colour"] = "ebony";
    json["choirs"][2]["wire_maker"] = {{"name", "invented"}, {"lots", {1, 2, 3}}};
    firstString(json)["replaced"] = "2026-02-03";
    json["registers"][0]["plectrum"] = "quill";
    auto file = parseInstrument(json.dump());
    REQUIRE(file);
    std::swap(file->instrument.choirs[0], file->instrument.choirs[2]);
    for (JackRegister& row : file->instrument.registers) {
        row.choir = 2 - row.choir;
    }
    file->instrument.name = "renamed";
    const Json again = Json::parse(formatInstrument(*file));
    CHECK(again["name"] == "renamed");
    CHECK(again["owner_note"] == "lid hinge loose");
    CHECK(again["compass"]["ivory"] == true);
    CHECK(again["compass"]["keys"][5]["worn"] == 0.3);
    CHECK(again["manuals"][1]["colour"] == "ebony");
    CHECK(again["choirs"][0]["id"] == "4");
    CHECK(again["choirs"][0]["wire_maker"]["lots"][2] == 3);
    CHECK(again["choirs"][1]["strings"][12]["replaced"] == "2026-02-03");
    CHECK(again["registers"][0]["plectrum"] == "quill");
    CHECK(again["registers"][0]["choir"] == "8");
    REQUIRE(parseInstrument(again.dump()));
}

TEST_CASE("each fault is named with field, value, allowed range and mending", "[unit]") {
    const std::vector<Fault> faults{
        {"schema",
         "schema is 2: this version reads up to 1; open the file with a newer Quillbench",
         [](Json& j) { j["schema"] = 2; }},
        {"schema", "missing", [](Json& j) { j.erase("schema"); }},
        {"schema", "give 1 to 1000000", [](Json& j) { j["schema"] = 1.5; }},
        {"kind", "is \"tune\": give one of \"instrument\"", [](Json& j) { j["kind"] = "tune"; }},
        {"id", "is missing: give a text", [](Json& j) { j.erase("id"); }},
        {"name", "is 7: give a text", [](Json& j) { j["name"] = 7; }},
        {"name", "...: give a text", [](Json& j) { j["name"] = std::string(500, 'x'); }},
        {"maker", "give a text of up to 200", [](Json& j) { j["maker"] = Json::array(); }},
        {"place", "give a text of up to 200", [](Json& j) { j["place"] = 3; }},
        {"example", "give true or false", [](Json& j) { j["example"] = "yes"; }},
        {"pitch_standard_hz",
         "is 41.5: give 300 to 600 Hz",
         [](Json& j) { j["pitch_standard_hz"] = 41.5; }},
        {"pitch_standard_hz",
         "is \"415\": give 300 to 600 Hz",
         [](Json& j) { j["pitch_standard_hz"] = "415"; }},
        {"positions",
         "a list of 0: give a list of 1 to 8",
         [](Json& j) { j["positions"] = Json::array(); }},
        {"positions",
         "put 0 among them",
         [](Json& j) {
             j["positions"] = {1, 2};
         }},
        {"positions[1]",
         "is 13: give whole semitones from -12 to 12",
         [](Json& j) {
             j["positions"] = {0, 13};
         }},
        {"positions[1]",
         "each once",
         [](Json& j) {
             j["positions"] = {0, 0};
         }},
        {"compass", "is missing: write an object", [](Json& j) { j.erase("compass"); }},
        {"compass.bass_octave",
         "give one of \"chromatic\", \"short C/E\"",
         [](Json& j) { j["compass"]["bass_octave"] = "short"; }},
        {"compass.keys",
         "give a list of 1 to 128",
         [](Json& j) { j["compass"]["keys"] = Json::array(); }},
        {"compass.keys[3].note",
         "is \"H2\": give a note from C0 to C9",
         [](Json& j) { j["compass"]["keys"][3]["note"] = "H2"; }},
        {"compass.keys[3].note",
         "ascending order of what they sound; the one before is G1",
         [](Json& j) { j["compass"]["keys"][3]["note"] = "C1"; }},
        {"compass.keys[3].shape",
         "is \"round\": give one of \"natural\"",
         [](Json& j) { j["compass"]["keys"][3]["shape"] = "round"; }},
        {"compass.keys[3].column",
         "give 0 to 100 natural key widths",
         [](Json& j) { j["compass"]["keys"][3]["column"] = -1; }},
        {"manuals", "give a list of 1 to 3", [](Json& j) { j["manuals"] = Json::array(); }},
        {"manuals[1].name", "taken already", [](Json& j) { j["manuals"][1]["name"] = "lower"; }},
        {"choirs", "give a list of 1 to 8", [](Json& j) { j["choirs"] = "three"; }},
        {"choirs[0]", "write an object", [](Json& j) { j["choirs"][0] = 8; }},
        {"choirs[1].id",
         "\"8\": give a name of its own",
         [](Json& j) { j["choirs"][1]["id"] = "8"; }},
        {"choirs[1].footage",
         "is 7: give 4, 8 or 16",
         [](Json& j) { j["choirs"][1]["footage"] = 7; }},
        {"choirs[1].footage", "is 2: give 4 to 16", [](Json& j) { j["choirs"][1]["footage"] = 2; }},
        {"choirs[1].silencing",
         "give one of \"lever\", \"knee\"",
         [](Json& j) { j["choirs"][1]["silencing"] = "mute"; }},
        {"choirs[1].strings",
         "a list of 60: give a list of 61",
         [](Json& j) { j["choirs"][1]["strings"].erase(60); }},
        {"choirs[1].strings[12].length_mm",
         "is 12000: give 20 to 4000 mm, the speaking length",
         [](Json& j) { firstString(j)["length_mm"] = 12000; }},
        {"choirs[1].strings[12].length_mm",
         "is missing",
         [](Json& j) { firstString(j).erase("length_mm"); }},
        {"choirs[1].strings[12].diameter_mm",
         "is -0.2: give 0.05 to 3 mm",
         [](Json& j) { firstString(j)["diameter_mm"] = -0.2; }},
        {"choirs[1].strings[12].material",
         "is \"gut\": give one of \"iron\", \"steel\"",
         [](Json& j) { firstString(j)["material"] = "gut"; }},
        {"choirs[1].strings[12].pin_diameter_mm",
         "give 2 to 12 mm",
         [](Json& j) { firstString(j)["pin_diameter_mm"] = 0; }},
        {"choirs[1].strings[12].pin_row",
         "whole number",
         [](Json& j) { firstString(j)["pin_row"] = 1.5; }},
        {"choirs[1].strings[12].pin_place",
         "give 0 to 1000",
         [](Json& j) { firstString(j)["pin_place"] = -3; }},
        {"registers", "give a list of 1 to 16", [](Json& j) { j["registers"] = Json::array(); }},
        {"registers[2].id", "taken already", [](Json& j) { j["registers"][2]["id"] = "8"; }},
        {"registers[2].choir",
         "is \"2\": give one of \"8\", \"8b\", \"4\"",
         [](Json& j) { j["registers"][2]["choir"] = "2"; }},
        {"registers[2].manual",
         "give one of \"lower\", \"upper\"",
         [](Json& j) { j["registers"][2]["manual"] = "middle"; }},
        {"registers[2].dogleg",
         "give true or false",
         [](Json& j) { j["registers"][2]["dogleg"] = 1; }},
        {"registers[2].lute", "give true or false", [](Json& j) { j["registers"][2]["lute"] = 1; }},
        {"registers[2].adjusters",
         "give true or false",
         [](Json& j) { j["registers"][2]["adjusters"] = 1; }},
        {"registers[2].pluck_point",
         "is 12: give 0.01 to 0.5",
         [](Json& j) { j["registers"][2]["pluck_point"] = 12; }},
        {"registers[2].stagger_mm",
         "give 0 to 15 mm",
         [](Json& j) { j["registers"][2]["stagger_mm"] = 40; }},
        {"coupler", "give one of \"none\", \"shove\"", [](Json& j) { j["coupler"] = "rope"; }},
        {"buff_choir", "is \"2\": give one of \"8\"", [](Json& j) { j["buff_choir"] = "2"; }},
    };
    for (const Fault& fault : faults) {
        INFO(fault.field << " / " << fault.says);
        const Error error = errorAfter(fault.change);
        CHECK(error.context == fault.field);
        INFO(error.text);
        CHECK(error.text.find(fault.field) == 0);
        CHECK(error.text.find(fault.says) != std::string::npos);
        CHECK(error.text.size() < 400);
    }
}

TEST_CASE("one manual has nothing to couple and no dogleg", "[unit]") {
    Json json = exampleJson("spinet");
    json["coupler"] = "shove";
    auto file = parseInstrument(json.dump());
    REQUIRE_FALSE(file);
    CHECK(file.error().context == "coupler");
    json["coupler"] = "none";
    json["registers"][0]["dogleg"] = true;
    file = parseInstrument(json.dump());
    REQUIRE_FALSE(file);
    CHECK(file.error().context == "registers[0].dogleg");
}

TEST_CASE("what is not JSON, too deep or too large is refused with its place", "[unit]") {
    const auto says = [](const std::string& text) {
        const auto file = parseInstrument(text);
        REQUIRE_FALSE(file);
        CHECK(file.error().code == ErrorCode::UnreadableInput);
        return file.error().text;
    };
    CHECK(says("").find("not JSON at line 1") == 0);
    CHECK(says("{\n\"schema\": 1,\n\"kind\" \"instrument\"\n}").find("not JSON at line 3") == 0);
    CHECK(says("{\"schema\": 1e999}").find("not JSON at line 1") == 0);
    CHECK(says("\"\xff\"").find("not JSON") == 0);
    CHECK(says("[]").find("the file is a list of 0: write an object") == 0);
    CHECK(says(std::string(100000, '[')).find("nested deeper than 32") == 0);
    CHECK(says(std::string(5U << 20U, ' ')).find("larger than 4 MiB") == 0);
    std::string many = "{";
    for (int i = 0; i < 30000; ++i) {
        many += (i == 0 ? "\"" : ",\"") + std::to_string(i) + "\":0";
    }
    CHECK(says(many + "}").find("more than 20000 fields") != std::string::npos);
}

TEST_CASE("no damage to a file makes reading throw or accept what cannot be written again",
          "[unit]") {
    const std::string good = formatInstrument({*findExample("virginal"), ""});
    Random random(20260301);
    int accepted = 0;
    for (int round = 0; round < 400; ++round) {
        std::string text = good;
        const auto hits = static_cast<int>(random.uniform(1.0, 4.0));
        for (int hit = 0; hit < hits; ++hit) {
            const auto at =
                static_cast<std::size_t>(random.uniform() * static_cast<double>(text.size()));
            switch (static_cast<int>(random.uniform(0.0, 3.0))) {
            case 0:
                text[at] = static_cast<char>(random.uniform(0.0, 256.0) - 128.0);
                break;
            case 1:
                text.erase(at, static_cast<std::size_t>(random.uniform(1.0, 30.0)));
                break;
            default:
                text.insert(at, text.substr(text.size() / 2, 20));
                break;
            }
        }
        const auto file = parseInstrument(text);
        if (file) {
            ++accepted;
            const auto again = parseInstrument(formatInstrument(*file));
            REQUIRE(again);
            CHECK(again->instrument == file->instrument);
        } else {
            CHECK_FALSE(file.error().text.empty());
        }
    }
    CHECK(accepted < 400);
}

TEST_CASE("an instrument is called by example id or file, and a missing one is told the ids",
          "[unit]") {
    const auto example = loadInstrument("spinet");
    REQUIRE(example);
    CHECK(example->id == "spinet");
    const auto missing = loadInstrument("no-such-instrument");
    REQUIRE_FALSE(missing);
    CHECK(missing.error().code == ErrorCode::UnreadableInput);
    CHECK(missing.error().text.find("double-8-8-4") != std::string::npos);

    const test::TemporaryFolder folder;
    const auto path = folder.path() / "own.json";
    REQUIRE(writeInstrumentFile(path, {*example, ""}));
    const auto file = loadInstrument(path.string());
    REQUIRE(file);
    CHECK(*file == *example);
    Json json = exampleJson("spinet");
    json["schema"] = 9;
    REQUIRE(writeInstrumentFile(folder.path() / "kept.json", {*example, json.dump()}));
    const auto kept = readInstrumentFile(folder.path() / "kept.json");
    CHECK(kept); // our schema is written whatever the text before held
}
