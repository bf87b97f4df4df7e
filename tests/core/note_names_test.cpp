#include "core/pitch/note_names.hpp"

#include <catch2/catch.hpp>

using namespace quillbench;

TEST_CASE("every note survives being written and read as Helmholtz has it", "[unit]") {
    for (int place = -15; place <= 19; ++place) {
        for (std::int8_t octave = -1; octave <= 9; ++octave) {
            const Note note{pitchClassAtFifth(place), octave};
            const std::string text = toHelmholtz(note);
            INFO(text);
            const auto again = parseHelmholtz(text);
            REQUIRE(again.hasValue());
            CHECK(*again == note);
        }
    }
}

TEST_CASE("Helmholtz names mean their octaves", "[unit]") {
    // [Helmholtz1863]: c' is the middle C (value from memory, common practice).
    const auto read = [](const char* text) { return toAscii(parseHelmholtz(text).value()); };
    CHECK(read("c'") == "C4");
    CHECK(read("c") == "C3");
    CHECK(read("C") == "C2");
    CHECK(read("G,") == "G1");
    CHECK(read("C,,") == "C0");
    CHECK(read("f#''") == "F#5");
    CHECK(read("fis'") == "F#4");
    CHECK(read("es'") == "Eb4");
    CHECK(read("As") == "Ab2");
    CHECK(read("h") == "B3");
    CHECK(read("Bb") == "Bb2");
    CHECK(read("bb'") == "Bb4");
    CHECK(read("c\u2032\u2032") == "C5");
    CHECK(read("ases") == "Abb3");
    CHECK_FALSE(helmholtzGrammar().empty());
}

TEST_CASE("what can be read in two ways is refused with both readings", "[unit]") {
    const auto refusal = [](const char* text) {
        const auto result = parseHelmholtz(text);
        REQUIRE_FALSE(result.hasValue());
        return result.error().text;
    };
    const auto names = [](const std::string& text, const char* one, const char* other) {
        INFO(text);
        CHECK(text.find(one) != std::string::npos);
        CHECK(text.find(other) != std::string::npos);
    };
    names(refusal("B"), "B natural", "B flat");
    names(refusal("b'"), "B natural", "B flat");
    names(refusal("GG"), "G1", "G2");
    names(refusal("c4"), "C4", "C7");
    names(refusal("C'"), "C3", "C4");
    names(refusal("c,"), "C2", "C1");
}

TEST_CASE("what is no Helmholtz name is refused with the form expected", "[unit]") {
    for (const char* text :
         {"", "x", "c'x", "c',", "H#b", "Hb", "c'''''''", "C,,,,", "#", "c4'", "\xff"}) {
        INFO(text);
        CHECK_FALSE(parseHelmholtz(text).hasValue());
    }
}
