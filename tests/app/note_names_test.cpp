#include "app/text/note_names.hpp"
#include "app/text/spoken_text.hpp"
#include "app/text/translation.hpp"

#include <catch2/catch.hpp>

#include <QStringList>

using namespace quillbench;

namespace {

QString named(const char* scientific, NoteWords words, OctaveSigns octaves) {
    const Result<Note> note = parseNote(scientific);
    REQUIRE(note.hasValue());
    return nameOf(*note, {words, octaves});
}

QString germanClass(const char* letters) {
    const Result<PitchClass> pitchClass = parsePitchClass(letters);
    REQUIRE(pitchClass.hasValue());
    return nameOf(*pitchClass, NoteWords::German);
}

/// Back to usual names whatever a test did.
struct NamingAgain {
    ~NamingAgain() { nameNotes({}); }
};

} // namespace

TEST_CASE("German names of notes: H and B, Es and As, and double signs", "[ui]") {
    // The German names of the notes and of their alterations; common practice, no source.
    const std::pair<const char*, const char16_t*> names[] = {
        {"C", u"C"}, {"C#", u"Cis"}, {"Cb", u"Ces"}, {"C##", u"Cisis"}, {"Cbb", u"Ceses"},
        {"D", u"D"}, {"D#", u"Dis"}, {"Db", u"Des"}, {"D##", u"Disis"}, {"Dbb", u"Deses"},
        {"E", u"E"}, {"E#", u"Eis"}, {"Eb", u"Es"},  {"E##", u"Eisis"}, {"Ebb", u"Eses"},
        {"F", u"F"}, {"F#", u"Fis"}, {"Fb", u"Fes"}, {"F##", u"Fisis"}, {"Fbb", u"Feses"},
        {"G", u"G"}, {"G#", u"Gis"}, {"Gb", u"Ges"}, {"G##", u"Gisis"}, {"Gbb", u"Geses"},
        {"A", u"A"}, {"A#", u"Ais"}, {"Ab", u"As"},  {"A##", u"Aisis"}, {"Abb", u"Ases"},
        {"B", u"H"}, {"B#", u"His"}, {"Bb", u"B"},   {"B##", u"Hisis"}, {"Bbb", u"Heses"},
    };
    for (const auto& [letters, german] : names) {
        CHECK(germanClass(letters) == QString::fromUtf16(german));
    }
}

TEST_CASE("Helmholtz's octaves: capitals, small letters, lines above and figures below", "[ui]") {
    // [Helmholtz1863]: C₁ C c c′ c″ c‴ (value from memory); middle C, C4, is c′, and the organ's lowest C, C2, is C.
    const auto german = [](const char* note) {
        return named(note, NoteWords::German, OctaveSigns::Helmholtz);
    };
    CHECK(german("C0") == QStringLiteral("C\u2082"));
    CHECK(german("F1") == QStringLiteral("F\u2081"));
    CHECK(german("C2") == QStringLiteral("C"));
    CHECK(german("F#2") == QStringLiteral("Fis"));
    CHECK(german("F#3") == QStringLiteral("fis"));
    CHECK(german("C4") == QStringLiteral("c\u2032"));
    CHECK(german("A4") == QStringLiteral("a\u2032"));
    CHECK(german("Bb4") == QStringLiteral("b\u2032"));
    CHECK(german("B4") == QStringLiteral("h\u2032"));
    CHECK(german("Eb5") == QStringLiteral("es\u2033"));
    CHECK(german("F6") == QStringLiteral("f\u2034"));
    CHECK(german("C7") == QStringLiteral("c\u2057"));
    // The octave goes with the letter: B♯3 is his, though it sounds near c′.
    CHECK(german("B#3") == QStringLiteral("his"));
    CHECK(named("F#2", NoteWords::Letters, OctaveSigns::Helmholtz) == QStringLiteral("F\u266f"));
    CHECK(named("Bb4", NoteWords::Letters, OctaveSigns::Helmholtz) ==
          QStringLiteral("b\u266d\u2032"));
}

TEST_CASE("letters and solfège with numbered octaves", "[ui]") {
    // Numbers of the octaves: [ISO16] names its tuning note A4 = 440 Hz elsewhere called a′ (value from memory).
    CHECK(named("A4", NoteWords::Letters, OctaveSigns::Scientific) == QStringLiteral("A4"));
    CHECK(named("B4", NoteWords::German, OctaveSigns::Scientific) == QStringLiteral("H4"));
    CHECK(named("Bb4", NoteWords::German, OctaveSigns::Scientific) == QStringLiteral("B4"));
    // Fixed do, B is si; common practice, no source.
    CHECK(named("C4", NoteWords::Solfege, OctaveSigns::Scientific) == QStringLiteral("do4"));
    CHECK(named("F#3", NoteWords::Solfege, OctaveSigns::Scientific) == QStringLiteral("fa\u266f3"));
    CHECK(named("Bb3", NoteWords::Solfege, OctaveSigns::Helmholtz) == QStringLiteral("si\u266d"));
    CHECK(named("G2", NoteWords::Solfege, OctaveSigns::Helmholtz) == QStringLiteral("Sol"));
}

TEST_CASE("one naming holds in every text", "[ui]") {
    const NamingAgain again;
    const Note note{PitchClass{Letter::B, -1}, 3};
    CHECK(noteText(note) == QStringLiteral("B\u266d3"));
    nameNotes({NoteWords::German, OctaveSigns::Helmholtz});
    CHECK(noteText(note) == QStringLiteral("b"));
    CHECK(noteText(PitchClass{Letter::B, 0}) == QStringLiteral("H"));
}

TEST_CASE("a voice tells octaves that only the eye tells apart, and feet from lines", "[ui]") {
    const NamingAgain again;
    nameNotes({NoteWords::German, OctaveSigns::Helmholtz});
    CHECK(spokenText(QStringLiteral("Play Fis, then fis, then fis\u2032 of the 8\u2032")) ==
          QStringLiteral("Play great Fis, then small fis, then fis one-line of the 8 foot"));
    CHECK(spokenText(QStringLiteral("Play a\u2033 and F\u2081")) ==
          QStringLiteral("Play a two-line and contra F"));
    // Words of the sentence stay words.
    CHECK(spokenText(QStringLiteral("Es schwebt: wird es still?")) ==
          QStringLiteral("Es schwebt: wird es still?"));
}
