#include "core/temperament/catalogue.hpp"

#include "core/support/contract.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <string>

namespace quillbench {

namespace {

constexpr std::size_t kCircle = 12;

/// One historical temperament. The fifths go up the chain from E♭: E♭–B♭, B♭–F, F–C, C–G, G–D, D–A, A–E, E–B,
/// B–F♯, F♯–C♯, C♯–G♯ and the closing G♯–E♭; P and S are Pythagorean and syntonic commas.
struct Row {
    const char* id;
    const char* shortName;
    const char* name;
    const char* year;
    const char* source;
    DefinitionStatus status;
    const char* statusNote;
    const char* disagreement;
    std::array<const char*, kCircle> fifths;
};

// clang-format off
constexpr Row kRows[] = {
    {"equal", "ET", "Equal temperament", "1584 onwards", "Zhu Zaiyu 1584; Stevin, manuscript about 1600; Neidhardt 1724 as \"Hof\"", DefinitionStatus::Verified, "Arithmetic: each fifth is narrow by a twelfth of the Pythagorean comma.", "How much it was used on organs and harpsichords before the 19th century is disputed.", {"-1/12P", "-1/12P", "-1/12P", "-1/12P", "-1/12P", "-1/12P", "-1/12P", "-1/12P", "-1/12P", "-1/12P", "-1/12P", "-1/12P"}},
    {"pythagorean", "PYTH", "Pythagorean, wolf G♯–E♭", "medieval", "Boethius and after; chain E♭–G♯ is the fifth type in Ratte 1991", DefinitionStatus::Verified, "Arithmetic; placing of the chain seen in a text that quotes Ratte 1991.", "Arnaut de Zwolle (about 1440) has the wolf at B–F♯ (Meister 1991).", {"0", "0", "0", "0", "0", "0", "0", "0", "0", "0", "0", "-1P"}},
    {"meantone-quarter", "MT4", "Quarter-comma meantone", "1523", "Aron, Toscanello in musica; exact sizes in Zarlino 1571 and Salinas 1577", DefinitionStatus::Verified, "Fifth 696.578 cents and the open 41.059 cents seen in encyclopedia text.", "Whether Aron meant an exact quarter comma for every fifth is debated: only his first four are explicit (Lindley).", {"-1/4S", "-1/4S", "-1/4S", "-1/4S", "-1/4S", "-1/4S", "-1/4S", "-1/4S", "-1/4S", "-1/4S", "-1/4S", "-1P+11/4S"}},
    {"meantone-2-7", "MT27", "Two-sevenths-comma meantone", "1558", "Zarlino, Le istitutioni harmoniche", DefinitionStatus::FromMemory, "Definition from memory.", "", {"-2/7S", "-2/7S", "-2/7S", "-2/7S", "-2/7S", "-2/7S", "-2/7S", "-2/7S", "-2/7S", "-2/7S", "-2/7S", "-1P+22/7S"}},
    {"meantone-third", "MT3", "Third-comma meantone", "1577", "Salinas, De musica libri septem", DefinitionStatus::FromMemory, "Definition from memory.", "", {"-1/3S", "-1/3S", "-1/3S", "-1/3S", "-1/3S", "-1/3S", "-1/3S", "-1/3S", "-1/3S", "-1/3S", "-1/3S", "-1P+11/3S"}},
    {"meantone-2-9", "MT29", "Two-ninths-comma meantone", "1666", "Lemme Rossi, Sistema musico", DefinitionStatus::FromMemory, "Definition from memory.", "", {"-2/9S", "-2/9S", "-2/9S", "-2/9S", "-2/9S", "-2/9S", "-2/9S", "-2/9S", "-2/9S", "-2/9S", "-2/9S", "-1P+22/9S"}},
    {"meantone-fifth", "MT5", "Fifth-comma meantone", "17th century", "Verheijen about 1600; Rossi 1666; Sauveur 1701", DefinitionStatus::FromMemory, "Definition from memory.", "", {"-1/5S", "-1/5S", "-1/5S", "-1/5S", "-1/5S", "-1/5S", "-1/5S", "-1/5S", "-1/5S", "-1/5S", "-1/5S", "-1P+11/5S"}},
    {"meantone-sixth", "MT6S", "Sixth-comma meantone (syntonic)", "18th century", "mentioned by Salinas; close to the 55 parts of Tosi and Telemann", DefinitionStatus::FromMemory, "Definition from memory.", "", {"-1/6S", "-1/6S", "-1/6S", "-1/6S", "-1/6S", "-1/6S", "-1/6S", "-1/6S", "-1/6S", "-1/6S", "-1/6S", "-1P+11/6S"}},
    {"silbermann", "SILB", "Silbermann, sixth of the Pythagorean comma", "about 1715 to 1748", "Sorge 1744 and 1748 on Gottfried Silbermann", DefinitionStatus::FromMemory, "Definition from memory.", "Sorge writes of a sixth of a comma without saying which. Barbour and German writers take the Pythagorean (wolf wide by 19.55 cents), others the syntonic; Ortgies doubts that any exact value was meant.", {"-1/6P", "-1/6P", "-1/6P", "-1/6P", "-1/6P", "-1/6P", "-1/6P", "-1/6P", "-1/6P", "-1/6P", "-1/6P", "+5/6P"}},
    {"werckmeister-3", "W3", "Werckmeister III", "1691", "Werckmeister, Musicalische Temperatur, first correct temperament", DefinitionStatus::Verified, "Cents rounded to integers seen in a reference table.", "Werckmeister left open which comma he divides; with the syntonic comma a schisma remains over.", {"0", "0", "0", "-1/4P", "-1/4P", "-1/4P", "0", "0", "-1/4P", "0", "0", "0"}},
    {"werckmeister-4", "W4", "Werckmeister IV", "1691", "Werckmeister, Musicalische Temperatur, second correct temperament", DefinitionStatus::Verified, "Cents rounded to integers seen in a reference table.", "", {"+1/3P", "-1/3P", "0", "-1/3P", "0", "-1/3P", "0", "-1/3P", "0", "-1/3P", "0", "+1/3P"}},
    {"werckmeister-5", "W5", "Werckmeister V", "1691", "Werckmeister, Musicalische Temperatur, third correct temperament", DefinitionStatus::PartlyVerified, "The first four notes (0, 96, 204, 300) seen in a reference table, the rest from memory.", "", {"0", "0", "-1/4P", "0", "0", "-1/4P", "-1/4P", "0", "0", "-1/4P", "-1/4P", "+1/4P"}},
    {"werckmeister-6-176", "W6_176", "Werckmeister VI Septenarius, D at 176", "1691", "Werckmeister, Musicalische Temperatur: string lengths 196 186 176 165 156 147 139 131 124 117 110 104", DefinitionStatus::Verified, "String lengths seen in T. Dent's page on the Septenarius.", "D at 176 as printed makes G–D narrow by more than half a comma and is thought a misprint for 175.", {"0", "440/441", "0", "392/393", "131/132", "352/351", "0", "0", "416/417", "278/279", "0", "496/495"}},
    {"werckmeister-6", "W6_175", "Werckmeister VI Septenarius, D at 175", "1691, D corrected in modern times", "Werckmeister, Musicalische Temperatur: string lengths 196 186 175 165 156 147 139 131 124 117 110 104", DefinitionStatus::Verified, "Cents to three places seen in correspondence on the Septenarius.", "Printed is 176 for D; 175 is the usual correction.", {"0", "440/441", "0", "392/393", "524/525", "350/351", "0", "0", "416/417", "278/279", "0", "496/495"}},
    {"kirnberger-1", "K1", "Kirnberger I", "1766", "Kirnberger, Construction der gleichschwebenden Temperatur", DefinitionStatus::Verified, "Fifth D–A as 40:27 seen in text; its schisma on F♯–C♯.", "", {"0", "0", "0", "0", "0", "-1S", "0", "0", "0", "-1P+1S", "0", "0"}},
    {"kirnberger-2", "K2", "Kirnberger II", "1771", "Kirnberger, Die Kunst des reinen Satzes", DefinitionStatus::Verified, "Cents rounded to integers seen in text.", "Kirnberger printed A as 161/270, the half comma in whole numbers.", {"0", "0", "0", "0", "0", "-1/2S", "-1/2S", "0", "0", "-1P+1S", "0", "0"}},
    {"kirnberger-3", "K3", "Kirnberger III", "1779, printed 1871", "Letter to Forkel, Allgemeine musikalische Zeitung N. F. 6, ed. Bellermann", DefinitionStatus::Verified, "Cents to six places seen in text.", "The same scheme stands in Sorge 1744 (Meister 1991). The letter can also be read unequally: see kirnberger-3-unequal.", {"0", "0", "0", "-1/4S", "-1/4S", "-1/4S", "-1/4S", "0", "0", "-1P+1S", "0", "0"}},
    {"kirnberger-3-unequal", "K3_PC", "Kirnberger III, unequal reading", "1779, printed 1871", "The same letter read in twelfths of the Pythagorean comma: 2, 2½, 3½, 3 and 1", DefinitionStatus::Verified, "Definition seen in text.", "A second reading of the same letter.", {"0", "0", "0", "-1/6P", "-5/24P", "-7/24P", "-1/4P", "0", "0", "-1/12P", "0", "0"}},
    {"neidhardt-1724-village", "N1724_1", "Neidhardt 1724 Dorf (1732 kleine Stadt)", "1724 and 1732", "Neidhardt, Sectio canonis harmonici", DefinitionStatus::FromMemory, "From memory of Barbour's table.", "In 1732 Neidhardt moved the labels up by one: the village of 1724 is the small town of 1732.", {"-1/12P", "0", "0", "-1/6P", "-1/6P", "-1/6P", "-1/6P", "-1/12P", "-1/12P", "0", "0", "-1/12P"}},
    {"neidhardt-1724-small-town", "N1724_2", "Neidhardt 1724 kleine Stadt (1732 große Stadt)", "1724 and 1732", "Neidhardt, Sectio canonis harmonici", DefinitionStatus::FromMemory, "From memory of Barbour's table.", "In 1732 it is the large town.", {"0", "-1/12P", "-1/12P", "-1/6P", "-1/6P", "-1/6P", "-1/12P", "0", "-1/12P", "-1/12P", "-1/12P", "0"}},
    {"neidhardt-1724-large-town", "N1724_3", "Neidhardt 1724 große Stadt", "1724", "Neidhardt, Sectio canonis harmonici; left out in 1732", DefinitionStatus::Verified, "Fifths and integer cents seen in a text that quotes Dupont 1935.", "", {"-1/12P", "-1/12P", "0", "-1/6P", "-1/6P", "-1/6P", "-1/12P", "0", "-1/12P", "-1/12P", "-1/12P", "0"}},
    {"neidhardt-1732-village", "N1732_V", "Neidhardt 1732 Dorf", "1732", "Neidhardt, Gäntzlich erschöpfte mathematische Abtheilungen", DefinitionStatus::Verified, "Fifths derived from the printed monochord, seen in text.", "F♯ is printed as 1420.48, 0.17 cent from what the fifths give.", {"0", "-1/12P", "0", "-1/12P", "-1/6P", "-1/4P", "-1/4P", "0", "-1/12P", "0", "-1/12P", "0"}},
    {"neidhardt-court", "N_HOF", "Neidhardt Hof", "1724 and 1732", "Neidhardt, Sectio canonis harmonici", DefinitionStatus::PartlyVerified, "The four social labels seen in text; that Hof is equal temperament from memory.", "The same sizes as equal temperament.", {"-1/12P", "-1/12P", "-1/12P", "-1/12P", "-1/12P", "-1/12P", "-1/12P", "-1/12P", "-1/12P", "-1/12P", "-1/12P", "-1/12P"}},
    {"vallotti", "VAL", "Vallotti", "about 1728, published 1779; this form 20th century", "Common modern form: F–C–G–D–A–E–B each narrow by a sixth of the Pythagorean comma", DefinitionStatus::Verified, "Definition seen in encyclopedia text.", "Vallotti himself wrote six sixths of the syntonic comma with a schisma on one more fifth (Barbieri); the form with the Pythagorean comma is not in his text: see vallotti-treatise.", {"0", "0", "-1/6P", "-1/6P", "-1/6P", "-1/6P", "-1/6P", "-1/6P", "0", "0", "0", "0"}},
    {"vallotti-treatise", "VAL_ORIG", "Vallotti as in his treatise", "about 1728, edited 1950", "Vallotti, Trattato della moderna musica, book 2", DefinitionStatus::PartlyVerified, "Definition seen in encyclopedia text; which fifth carries the schisma from memory (G♯–E♭).", "Which fifth carries the schisma.", {"0", "0", "-1/6S", "-1/6S", "-1/6S", "-1/6S", "-1/6S", "-1/6S", "0", "0", "0", "-1P+1S"}},
    {"vallotti-barca", "VAL_BARCA", "Vallotti–Barca", "manuscript 1786, published 1987", "Barca", DefinitionStatus::Verified, "Definition seen in encyclopedia text.", "", {"-1/6P+1/6S", "-1/6P+1/6S", "-1/6S", "-1/6S", "-1/6S", "-1/6S", "-1/6S", "-1/6S", "-1/6P+1/6S", "-1/6P+1/6S", "-1/6P+1/6S", "-1/6P+1/6S"}},
    {"young-1", "Y1", "Young I", "1800", "Young, Philosophical Transactions 90 (1800), p. 143", DefinitionStatus::Verified, "Third 391.69, fifths 697.92 and 700.12 seen in encyclopedia text.", "Often made simpler as sixths and twelfths of the Pythagorean comma, which differs by less than 0.4 cent: see young-1-simplified.", {"0", "-1/4P+3/16S", "-1/4P+3/16S", "-3/16S", "-3/16S", "-3/16S", "-3/16S", "-1/4P+3/16S", "-1/4P+3/16S", "0", "0", "0"}},
    {"young-1-simplified", "Y1_RAT", "Young I, simplified", "20th century", "Barbour and others", DefinitionStatus::Verified, "Seen in text as a common misreading.", "Not what Young wrote.", {"0", "-1/12P", "-1/12P", "-1/6P", "-1/6P", "-1/6P", "-1/6P", "-1/12P", "-1/12P", "0", "0", "0"}},
    {"young-2", "Y2", "Young II", "1800 to 1807", "Young, Philosophical Transactions 90 (1800); Lectures 1807", DefinitionStatus::Verified, "Definition seen in encyclopedia text.", "", {"0", "0", "0", "-1/6P", "-1/6P", "-1/6P", "-1/6P", "-1/6P", "-1/6P", "0", "0", "0"}},
    {"kellner", "KELL", "Kellner", "1975 to 1977", "Kellner, Wie stimme ich selbst mein Cembalo?", DefinitionStatus::Verified, "Offsets from equal to a tenth of a cent seen in correspondence of 1995.", "Kellner's printed fifth 697.28 and third 389.11 come from x⁴ + 2x − 8 = 0 (C–G and C–E beat alike); fifths of the comma give 697.26 and 389.05. That it is Bach's is disputed.", {"0", "0", "0", "-1/5P", "-1/5P", "-1/5P", "-1/5P", "0", "-1/5P", "0", "0", "0"}},
    {"barnes", "BARN", "Barnes", "1979", "Barnes, Early Music 7/2 (1979)", DefinitionStatus::PartlyVerified, "E♭–G verified, the rest from memory.", "That it is Bach's is disputed.", {"0", "0", "-1/6P", "-1/6P", "-1/6P", "-1/6P", "-1/6P", "0", "-1/6P", "0", "0", "0"}},
    {"lehman", "LEHM", "Lehman", "2005", "Lehman, Early Music 33/1 and 33/2 (2005), reading of the scroll of 1722", DefinitionStatus::Verified, "Offsets from equal to a tenth of a cent seen in text.", "The historical claim is widely disputed.", {"-1/12P", "+1/12P", "-1/6P", "-1/6P", "-1/6P", "-1/6P", "-1/6P", "0", "0", "0", "-1/12P", "-1/12P"}},
    {"bendeler-1", "BEND1", "Bendeler I", "about 1690", "Bendeler, Organopoeia", DefinitionStatus::Verified, "Definition seen in text.", "", {"0", "0", "0", "-1/3P", "-1/3P", "0", "0", "0", "-1/3P", "0", "0", "0"}},
    {"bendeler-2", "BEND2", "Bendeler II", "about 1690", "Bendeler, Organopoeia", DefinitionStatus::FromMemory, "From memory of Barbour's table; a text agrees that the fifth between the two narrow ones is pure.", "", {"0", "0", "0", "-1/3P", "0", "-1/3P", "0", "0", "0", "-1/3P", "0", "0"}},
    {"bendeler-3", "BEND3", "Bendeler III", "about 1690", "Bendeler, Organopoeia", DefinitionStatus::FromMemory, "From memory of Barbour's table.", "", {"0", "0", "0", "-1/4P", "-1/4P", "0", "0", "-1/4P", "0", "0", "0", "-1/4P"}},
    {"sorge-1758", "SORG58", "Sorge 1758", "1758", "Sorge, Zuverlässige Anweisung Claviere und Orgeln, p. 20", DefinitionStatus::Verified, "Printed monochord seen in text; the fifths F♯–C♯ and B♭–F follow from its lengths.", "", {"-1/12P", "-1/12P", "0", "-1/6P", "-1/6P", "-1/6P", "-1/12P", "0", "-1/12P", "-1/12P", "0", "-1/12P"}},
    {"marpurg-6", "MARP6", "Marpurg 1790, no. 6", "1790", "Marpurg, Neue Methode, p. 27", DefinitionStatus::Verified, "Quotation seen in text.", "Commentary on the passage says E–B and B♭–F; the words quoted from Marpurg are B–F♯ and B♭–F.", {"0", "-1/2P", "0", "0", "0", "0", "0", "0", "-1/2P", "0", "0", "0"}},
    {"rameau-b-flat", "RAM_BB", "Rameau 1726, from B♭", "1726", "Rameau, Nouveau système de musique théorique; numbers by Barbour", DefinitionStatus::PartlyVerified, "Rameau's words seen in text; the numbers from memory of Barbour.", "Rameau gives words only: seven fifths from B♭ weak by a quarter comma, then gradually juster, the last two a little too wide.", {"-1/2P+7/8S", "-1/4S", "-1/4S", "-1/4S", "-1/4S", "-1/4S", "-1/4S", "-1/4S", "0", "0", "0", "-1/2P+7/8S"}},
    {"rameau-c", "RAM_C", "Rameau 1726, from C", "1726", "Rameau, Nouveau système de musique théorique; reading by Dent", DefinitionStatus::Verified, "The reading seen in correspondence.", "Rameau gives words only; this takes his other starting note.", {"-1/4P+7/16S", "-1/4P+7/16S", "-1/4P+7/16S", "-1/4S", "-1/4S", "-1/4S", "-1/4S", "-1/4S", "-1/4S", "-1/4S", "0", "-1/4P+7/16S"}},
    {"dalembert", "DALE", "D'Alembert 1752, Rousseau 1767", "1752 and 1767", "D'Alembert, Élémens de musique; Rousseau, Dictionnaire de musique, \"Tempérament\"; evened out in modern times", DefinitionStatus::PartlyVerified, "The words seen in text; the numbers are a modern idealisation.", "The texts describe fifths that change gradually, not three equal groups.", {"-1/6P+1/4S", "-1/6P+1/4S", "-1/6P+1/4S", "-1/4S", "-1/4S", "-1/4S", "-1/4S", "-1/12P", "-1/12P", "-1/12P", "-1/12P", "-1/6P+1/4S"}},
    {"lambert", "LAMB", "Lambert", "1774", "Lambert, Remarques sur le tempérament en musique", DefinitionStatus::PartlyVerified, "That the comma is divided in seven seen in text; the place F to F♯ from memory.", "", {"0", "0", "-1/7P", "-1/7P", "-1/7P", "-1/7P", "-1/7P", "-1/7P", "-1/7P", "0", "0", "0"}},
    {"stanhope", "STAN", "Stanhope", "1806", "Stanhope, Principles of the Science of Tuning Instruments", DefinitionStatus::FromMemory, "From memory of Barbour's table; C–E pure, G–D–A–E in three equal parts, E–G♯–C in two.", "", {"-1/2P+1/2S", "0", "0", "0", "-1/3S", "-1/3S", "-1/3S", "0", "-1/2P+1/2S", "0", "0", "0"}},
    {"schlick-barbour", "SCH_BARB", "Schlick, reconstruction by Barbour", "1511", "Schlick, Spiegel der Orgelmacher und Organisten", DefinitionStatus::Verified, "Seen in a text that quotes Lange 1968.", "Schlick gives words only; see the other reconstructions.", {"-1/12P", "-1/12P", "-1/6P", "-1/6P", "-1/6P", "-1/6P", "-1/6P", "-1/6P", "-1/12P", "-1/12P", "+1/6P", "+1/6P"}},
    {"schlick-tessmer", "SCH_TESS", "Schlick, reconstruction by Tessmer", "1511", "Schlick, Spiegel der Orgelmacher und Organisten", DefinitionStatus::Verified, "C♯–G♯ about 9 and G♯–D♯ about 2 cents wide seen in text.", "Schlick gives words only; see the other reconstructions.", {"-1/12P", "-1/12P", "-3/16P", "-3/16P", "-3/16P", "-3/16P", "-3/16P", "-3/16P", "-1/12P", "-1/12P", "+3/8P", "+1/12P"}},
    {"schlick-lange", "SCH_LANGE", "Schlick, reconstruction by Lange", "1511", "Schlick, Spiegel der Orgelmacher und Organisten; Lange 1978", DefinitionStatus::Verified, "Ten equal fifths, A♭–E♭ wide by as much, wolf at D♭–A♭, seen in text.", "Lange first (1968) took 3/16 of the syntonic comma. Schlick gives words only.", {"-1/5S", "-1/5S", "-1/5S", "-1/5S", "-1/5S", "-1/5S", "-1/5S", "-1/5S", "-1/5S", "-1/5S", "-1P+9/5S", "+1/5S"}},
    {"ramos", "RAMOS", "Ramos de Pareja, monochord", "1482", "Ramos de Pareja, Musica practica", DefinitionStatus::FromMemory, "From memory of Barbour's table.", "", {"0", "0", "0", "0", "80/81", "0", "0", "0", "0", "0", "32768/32805", "0"}},
    {"fogliano-1", "FOGL1", "Fogliano, first", "1529", "Fogliano, Musica theorica", DefinitionStatus::FromMemory, "From memory of Barbour's table.", "Fogliano ends by taking the mean of his two D's, which is no ratio of whole numbers.", {"80/81", "0", "0", "0", "80/81", "0", "0", "0", "80/81", "0", "0", "128/125"}},
    {"fogliano-2", "FOGL2", "Fogliano, second", "1529", "Fogliano, Musica theorica", DefinitionStatus::FromMemory, "From memory; D 9/8 and B♭ 9/5.", "Fogliano ends by taking the mean of his two D's, which is no ratio of whole numbers.", {"0", "80/81", "0", "0", "0", "80/81", "0", "0", "80/81", "0", "0", "128/125"}},
};

// clang-format on

bool sameName(std::string_view a, std::string_view b) {
    return std::equal(a.begin(), a.end(), b.begin(), b.end(), [](char x, char y) {
        return std::tolower(static_cast<unsigned char>(x)) ==
               std::tolower(static_cast<unsigned char>(y));
    });
}

Temperament built(const Row& row) {
    std::vector<Tempering> fifths;
    for (const char* text : row.fifths) {
        const auto tempering = parseTempering(text);
        ENSURES(tempering.hasValue());
        fifths.push_back(*tempering);
    }
    auto temperament = Temperament::fromFifths(
        {row.id, row.name, row.year, row.source, row.statusNote, row.disagreement, row.status},
        PitchClass{Letter::E, -1},
        std::move(fifths));
    ENSURES(temperament.hasValue());
    return std::move(temperament).value();
}

std::vector<Temperament> allBuilt() {
    std::vector<Temperament> all;
    for (const Row& row : kRows) {
        all.push_back(built(row));
    }
    return all;
}

} // namespace

const std::vector<Temperament>& catalogue() {
    static const std::vector<Temperament> all = allBuilt();
    return all;
}

const Temperament* findTemperament(std::string_view id) {
    for (std::size_t i = 0; i < std::size(kRows); ++i) {
        if (sameName(kRows[i].id, id) || sameName(kRows[i].shortName, id)) {
            return &catalogue()[i];
        }
    }
    return nullptr;
}

std::string_view shortNameOf(const Temperament& temperament) {
    for (const Row& row : kRows) {
        if (temperament.id() == row.id) {
            return row.shortName;
        }
    }
    return {};
}

} // namespace quillbench
