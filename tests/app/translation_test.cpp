#include "app/text/core_phrases.hpp"
#include "app/text/core_text.hpp"
#include "app/text/format.hpp"
#include "app/text/sound_text.hpp"
#include "app/text/spoken_text.hpp"
#include "app/text/step_text.hpp"
#include "app/text/translation.hpp"
#include "core/instrument/examples.hpp"
#include "core/temperament/catalogue.hpp"
#include "core/temperament/temperament.hpp"
#include "core/units/ratio.hpp"

#include <catch2/catch.hpp>

#include <QCoreApplication>

using namespace quillbench;

namespace {

const Error& errorOf(const Result<Tempering>& result) {
    REQUIRE_FALSE(result.hasValue());
    return result.error();
}

} // namespace

TEST_CASE("the window speaks German, and writes numbers as Germans do, while it is asked to",
          "[ui]") {
    const QLocale before;
    {
        const Translation german(Language::German);
        CHECK(spokenLanguage() == Language::German);
        CHECK(intervalText(IntervalKind::MajorThird) == QStringLiteral("große Terz"));
        CHECK(hertzText(Hertz(415.3)) == QStringLiteral("415,30 Hz"));
        CHECK(signedCents(Cents(-2.44)) == QStringLiteral("\u22122,4"));
        CHECK(QCoreApplication::translate("QPlatformTheme", "Cancel") ==
              QStringLiteral("Abbrechen"));
        CHECK(usualNaming() == NoteNaming{NoteWords::German, OctaveSigns::Helmholtz});
        CHECK(spokenText(QStringLiteral("8\u2032: 2,5°")) == QStringLiteral("8 Fuß: 2,5 Grad"));
    }
    CHECK(spokenLanguage() == Language::English);
    CHECK(intervalText(IntervalKind::MajorThird) == QStringLiteral("major third"));
    CHECK(usualNaming() == NoteNaming{});
    CHECK(QLocale() == before);
}

TEST_CASE("English is spoken on a system of any language when it is asked for", "[ui]") {
    const Translation english(Language::English);
    CHECK(spokenLanguage() == Language::English);
    CHECK(hertzText(Hertz(415.3)) == QStringLiteral("415.30 Hz"));
}

TEST_CASE("codes of languages come back; an unknown one is as the system", "[ui]") {
    for (const Language language : {Language::AsSystem, Language::English, Language::German}) {
        CHECK(languageOf(languageCode(language)) == language);
    }
    CHECK(languageOf(QStringLiteral("xx")) == Language::AsSystem);
}

TEST_CASE("what the engine says is translated with what it puts in", "[ui]") {
    const Result<Tempering> typed = parseTempering("quarter");
    CHECK(errorText(errorOf(typed)) == toQString(errorOf(typed).text));
    const Translation german(Language::German);
    const QString text = errorText(errorOf(typed));
    CHECK(
        text.startsWith(QStringLiteral("\u201equarter\u201c ist keine Temperierung einer Quinte")));
    CHECK(coreText("gamba.json: not JSON at line 3: look there for a missing comma, quote or "
                   "bracket")
              .startsWith(QStringLiteral("gamba.json: kein JSON in Zeile 3")));
    CHECK(coreText("the sound input 'Room' is gone: connect it again; it is looked for every "
                   "second") ==
          QStringLiteral("Klangeingang \u201eRoom\u201c ist weg: wieder anschließen; es wird jede "
                         "Sekunde gesucht"));
    nameNotes(usualNaming());
    CHECK(coreText("not heard yet: E\u266d, B\u266d, F\u266f; all twelve notes are needed") ==
          QStringLiteral("noch nicht gehört: Es, B, Fis; alle zwölf Töne werden gebraucht"));
    nameNotes({});
    // What people wrote stays as they wrote it.
    CHECK(coreText("Grandmother's spinet") == QStringLiteral("Grandmother's spinet"));
}

TEST_CASE("the examples, their registers and wires, and the notes of the catalogue are German",
          "[ui]") {
    const Translation german(Language::German);
    for (const Instrument& example : exampleInstruments()) {
        CHECK(coreText(example.name) != toQString(example.name));
        for (const JackRegister& row : example.registers) {
            const bool feetAlone = row.name.find(' ') == std::string::npos;
            CHECK((feetAlone || coreText(row.name) != toQString(row.name)));
        }
    }
    for (const Temperament& one : catalogue()) {
        CHECK(coreText(one.description().statusNote) != toQString(one.description().statusNote));
        const std::string& dispute = one.description().disagreement;
        CHECK((dispute.empty() || coreText(dispute) != toQString(dispute)));
    }
    CHECK(choirText(exampleInstruments().front().choirs[1]) == QStringLiteral("8\u2032 II"));
}
