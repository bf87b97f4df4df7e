#include "app/formats/instrument_file.hpp"
#include "app/formats/string_list.hpp"
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

TEST_CASE("what is wrong with a field or a cell of a file is said in German", "[ui]") {
    const Translation german(Language::German);
    const auto said = [](const std::string& json) {
        const auto instrument = parseInstrument(json);
        REQUIRE_FALSE(instrument);
        return errorText(instrument.error()).toStdString();
    };
    std::string whole = formatInstrument({exampleInstruments().front(), {}});
    const auto broken = [&whole](const std::string& from, const std::string& to) {
        std::string text = whole;
        const std::size_t at = text.find(from);
        REQUIRE(at != std::string::npos);
        return text.replace(at, from.size(), to);
    };
    CHECK(said(broken("\"pitch_standard_hz\": 415.0", "\"pitch_standard_hz\": 41.5")) ==
          "pitch_standard_hz ist 41.5: 300 bis 600 Hz angeben: die Höhe von a′ in der Lage 0");
    CHECK(said(broken("\"schema\": 1", "\"schema\": 7")) ==
          "schema ist 7: diese Version liest bis 1; die Datei mit einem neueren Quillbench öffnen");
    CHECK(said("[]") == "die Datei ist eine Liste von 0: ein Objekt schreiben, { ... }");
    CHECK(said(broken("\"id\": \"double-8-8-4\"", "\"other\": 1"))
              .starts_with("id fehlt: einen Text von 1 bis 200 Bytes angeben"));
    const auto list = parseStringList("choir,key,length_mm\n8,A3,long\n");
    REQUIRE_FALSE(list);
    CHECK(errorText(list.error()).toStdString() ==
          "Zeile 2, Spalte length_mm ist 'long': 20 bis 4000 mm klingende Länge angeben, mit "
          "Dezimalpunkt, oder leer lassen");
    // A name is no complaint, whatever it looks like.
    CHECK(coreText("The old one is red: mind it") == QStringLiteral("The old one is red: mind it"));
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
