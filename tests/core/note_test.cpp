#include "core/pitch/note.hpp"

#include <catch2/catch.hpp>

using namespace quillbench;

TEST_CASE("notes are spelled: G sharp is not A flat, on one key", "[unit]") {
    const auto gSharp = parseNote("G#3");
    const auto aFlat = parseNote("A\u266d3");
    REQUIRE(gSharp);
    REQUIRE(aFlat);
    CHECK_FALSE(*gSharp == *aFlat);
    CHECK(gSharp->midiNumber() == aFlat->midiNumber());
    CHECK(gSharp->pitchClass.fifthsFromC() == 8);
    CHECK(aFlat->pitchClass.fifthsFromC() == -4);
}

TEST_CASE("note numbers follow MIDI 1.0: C4 is 60, A4 is 69", "[unit]") {
    CHECK(parseNote("C4")->midiNumber() == 60);
    CHECK(parseNote("a4")->midiNumber() == 69);
    CHECK(parseNote("B#3")->midiNumber() == 60);
    CHECK(parseNote("C-1")->midiNumber() == 0);
}

TEST_CASE("every pitch class of the chain of fifths comes back from its place", "[unit]") {
    for (int place = -15; place <= 19; ++place) {
        const PitchClass pitchClass = pitchClassAtFifth(place);
        CHECK(pitchClass.fifthsFromC() == place);
        CHECK(pitchClass.chroma() == (((place * 7) % 12) + 12) % 12);
        const auto again = parsePitchClass(toAscii(pitchClass));
        REQUIRE(again);
        CHECK(*again == pitchClass);
    }
}

TEST_CASE("what is not a note is refused in one line that says the form", "[unit]") {
    for (const char* text : {"", "H3", "A", "A#b3", "C###4", "A33", "A-2", "3A"}) {
        const auto note = parseNote(text);
        INFO(text);
        REQUIRE_FALSE(note);
        CHECK(note.error().text.find("write a letter A to G") != std::string::npos);
    }
}
