#include "app/formats/file_kind.hpp"
#include "app/formats/instrument_file.hpp"
#include "app/formats/logbook_file.hpp"
#include "app/formats/string_list.hpp"
#include "app/formats/temperament_file.hpp"
#include "app/formats/text_file.hpp"
#include "core/instrument/examples.hpp"
#include "core/temperament/catalogue.hpp"
#include "tests/support/temporary_folder.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <string>

using namespace quillbench;
using quillbench::test::TemporaryFolder;

namespace {

Result<FileKind> kindOf(const std::string& text) {
    const TemporaryFolder folder;
    const auto file = folder.path() / "some file";
    REQUIRE(writeTextFile(file, text));
    return fileKind(file);
}

} // namespace

TEST_CASE("every kind of file that the program writes is known by what stands in it") {
    const std::string instrument = formatInstrument({exampleInstruments().front(), {}});
    CHECK(*kindOf(instrument) == FileKind::Instrument);
    CHECK(*kindOf(formatTemperament({catalogue().front(), {}})) == FileKind::Temperament);
    CHECK(*kindOf(formatLogbook({})) == FileKind::LogbookExport);
    CHECK(*kindOf(formatStringList(exampleInstruments().front())) == FileKind::StringList);
    CHECK(*kindOf("\xEF\xBB\xBF\n  " + instrument) == FileKind::Instrument);
    // Another program may write the fields in another order: what is inside counts only outermost.
    CHECK(*kindOf(nlohmann::json::parse(instrument).dump()) == FileKind::Instrument);
    CHECK(*kindOf(R"({"made_by": {"kind": "temperament"}, "kind": "instrument"})") ==
          FileKind::Instrument);
}

TEST_CASE("a folder of exported tables is an export, another folder is not") {
    const TemporaryFolder folder;
    CHECK_FALSE(fileKind(folder.path()));
    for (const auto& [name, text] : formatLogbookCsv({})) {
        REQUIRE(writeTextFile(folder.path() / name, text));
    }
    CHECK(*fileKind(folder.path()) == FileKind::LogbookExport);
}

TEST_CASE("a logbook's own file is told from an export of it") {
    // The first sixteen bytes: https://www.sqlite.org/fileformat2.html, 1.3.1 (value from memory).
    CHECK(*kindOf(std::string("SQLite format 3\0 and more", 25)) == FileKind::LogbookFile);
}

TEST_CASE("sound is left to who reads sound") {
    CHECK(*kindOf(std::string("RIFF\x24\0\0\0WAVEfmt ", 16)) == FileKind::Other);
    CHECK(*kindOf("fLaC") == FileKind::Other);
}

TEST_CASE("what cannot be opened is refused in one line that names the file") {
    for (const char* text : {"", "{}", "{\"kind\": \"poem\"}", "{\"kind\": 3}", "{", "{{{{"}) {
        INFO(text);
        const auto kind = kindOf(text);
        REQUIRE_FALSE(kind);
        CHECK(kind.error().text.find("some file") != std::string::npos);
        CHECK(kind.error().text.find('\n') == std::string::npos);
    }
    const auto missing = fileKind("no-such-file");
    REQUIRE_FALSE(missing);
    CHECK(missing.error().text.find("no-such-file") != std::string::npos);
    CHECK_FALSE(kindOf("{\"kind\": \"" + std::string("a\nb") + "\"}"));
}
