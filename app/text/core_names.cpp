#include "app/text/core_phrases.hpp"

#include <QtGlobal>

namespace quillbench {

namespace {

constexpr const char* kNamePhrases[] = {
    QT_TRANSLATE_NOOP("Core", "%1 (invented)"),
    QT_TRANSLATE_NOOP("Core", "Two-manual 8′ 8′ 4′ (invented example)"),
    QT_TRANSLATE_NOOP("Core", "Single 8′ 8′, brass, shifts from 415 to 440 (invented example)"),
    QT_TRANSLATE_NOOP("Core", "Single 8′ 4′, short octave GG/BB (invented example)"),
    QT_TRANSLATE_NOOP("Core", "Two-manual 16′ 8′ 8′ 4′ with lute (invented example)"),
    QT_TRANSLATE_NOOP("Core", "Bentside spinet, one 8′ (invented example)"),
    QT_TRANSLATE_NOOP("Core", "Virginal, short octave C/E, brass (invented example)"),
    QT_TRANSLATE_NOOP("Core", "back 8′"),
    QT_TRANSLATE_NOOP("Core", "front 8′"),
    QT_TRANSLATE_NOOP("Core", "lute (front 8′ at the nut)"),
    QT_TRANSLATE_NOOP("Core", "lower"),
    QT_TRANSLATE_NOOP("Core", "upper"),
    QT_TRANSLATE_NOOP("Core", "single"),
    QT_TRANSLATE_NOOP("Core", "short C/E"),
    QT_TRANSLATE_NOOP("Core", "short GG/BB"),
    QT_TRANSLATE_NOOP("Core", "broken C/E"),
    QT_TRANSLATE_NOOP("Core", "chromatic"),
    QT_TRANSLATE_NOOP("Core", "soft iron (historical kind)"),
    QT_TRANSLATE_NOOP("Core", "steel (music wire)"),
    QT_TRANSLATE_NOOP("Core", "yellow brass (CuZn30)"),
    QT_TRANSLATE_NOOP("Core", "red brass (CuZn15)"),
    QT_TRANSLATE_NOOP("Core", "red brass (CuZn10)"),
    QT_TRANSLATE_NOOP("Core", "phosphor bronze (CuSn8)"),
    QT_TRANSLATE_NOOP("Core", "sterling silver (Ag925)"),
    QT_TRANSLATE_NOOP("Core", "beats are easily heard up to here"),
    QT_TRANSLATE_NOOP("Core", "fastest that is counted without help"),
    QT_TRANSLATE_NOOP("Core", "direction told without moving the pin (fifths and major thirds)"),
    QT_TRANSLATE_NOOP("Core", "slower ones are hidden while the strings die away"),
    QT_TRANSLATE_NOOP("Core", "a third's own beat wanders so much within a note (piano)"),
    QT_TRANSLATE_NOOP("Core", "sequences of clicks, six intervals to one"),
    QT_TRANSLATE_NOOP("Core", "clicks, fewer than 20 a second"),
    QT_TRANSLATE_NOOP("Core", "value from memory"),
    QT_TRANSLATE_NOOP("Core", "common practice, no source"),
    QT_TRANSLATE_NOOP("Core", "%1; common practice (read)"),
    QT_TRANSLATE_NOOP("Core", "%1; common practice"),
    QT_TRANSLATE_NOOP("Core", "%1 (read)"),
    QT_TRANSLATE_NOOP("Core", "Equal temperament from F-A"),
    QT_TRANSLATE_NOOP("Core", "Quarter-comma meantone from C"),
    QT_TRANSLATE_NOOP("Core", "Kirnberger III from C"),
    QT_TRANSLATE_NOOP("Core", "Vallotti from F-A"),
    QT_TRANSLATE_NOOP("Core", "Lehman from F-A"),
    QT_TRANSLATE_NOOP("Core", "Any regular meantone by halving"),
    QT_TRANSLATE_NOOP("Core", "Lambert from F-A"),
    QT_TRANSLATE_NOOP("Core", "Dom Bedos from C"),
    QT_TRANSLATE_NOOP("Core", "D'Alembert with his three proofs"),
    QT_TRANSLATE_NOOP("Core", "Equal temperament"),
    QT_TRANSLATE_NOOP("Core", "Pythagorean, wolf G♯–E♭"),
    QT_TRANSLATE_NOOP("Core", "Quarter-comma meantone"),
    QT_TRANSLATE_NOOP("Core", "Two-sevenths-comma meantone"),
    QT_TRANSLATE_NOOP("Core", "Third-comma meantone"),
    QT_TRANSLATE_NOOP("Core", "Two-ninths-comma meantone"),
    QT_TRANSLATE_NOOP("Core", "Fifth-comma meantone"),
    QT_TRANSLATE_NOOP("Core", "Sixth-comma meantone (syntonic)"),
    QT_TRANSLATE_NOOP("Core", "Silbermann, sixth of the Pythagorean comma"),
    QT_TRANSLATE_NOOP("Core", "Werckmeister VI Septenarius, D at 176"),
    QT_TRANSLATE_NOOP("Core", "Werckmeister VI Septenarius, D at 175"),
    QT_TRANSLATE_NOOP("Core", "Kirnberger III, unequal reading"),
    QT_TRANSLATE_NOOP("Core", "Vallotti as in his treatise"),
    QT_TRANSLATE_NOOP("Core", "Young I, simplified"),
    QT_TRANSLATE_NOOP("Core", "Marpurg 1790, no. 6"),
    QT_TRANSLATE_NOOP("Core", "Rameau 1726, from B♭"),
    QT_TRANSLATE_NOOP("Core", "Rameau 1726, from C"),
    QT_TRANSLATE_NOOP("Core", "Schlick, reconstruction by Barbour"),
    QT_TRANSLATE_NOOP("Core", "Schlick, reconstruction by Tessmer"),
    QT_TRANSLATE_NOOP("Core", "Schlick, reconstruction by Lange"),
    QT_TRANSLATE_NOOP("Core", "Ramos de Pareja, monochord"),
    QT_TRANSLATE_NOOP("Core", "Fogliano, first"),
    QT_TRANSLATE_NOOP("Core", "Fogliano, second"),
    QT_TRANSLATE_NOOP("Core", "1584 onwards"),
    QT_TRANSLATE_NOOP("Core", "medieval"),
    QT_TRANSLATE_NOOP("Core", "17th century"),
    QT_TRANSLATE_NOOP("Core", "18th century"),
    QT_TRANSLATE_NOOP("Core", "20th century"),
    QT_TRANSLATE_NOOP("Core", "about 1690"),
    QT_TRANSLATE_NOOP("Core", "about 1715 to 1748"),
    QT_TRANSLATE_NOOP("Core", "about 1728, edited 1950"),
    QT_TRANSLATE_NOOP("Core", "about 1728, published 1779; this form 20th century"),
    QT_TRANSLATE_NOOP("Core", "1691, D corrected in modern times"),
    QT_TRANSLATE_NOOP("Core", "1779, printed 1871"),
    QT_TRANSLATE_NOOP("Core", "1724 and 1732"),
    QT_TRANSLATE_NOOP("Core", "1752 and 1767"),
    QT_TRANSLATE_NOOP("Core", "1800 to 1807"),
    QT_TRANSLATE_NOOP("Core", "1975 to 1977"),
    QT_TRANSLATE_NOOP("Core", "manuscript 1786, published 1987"),
    QT_TRANSLATE_NOOP("Core",
                      "Arithmetic: each fifth is narrow by a twelfth of the Pythagorean comma."),
    QT_TRANSLATE_NOOP("Core",
                      "Arithmetic; placing of the chain seen in a text that quotes Ratte 1991."),
    QT_TRANSLATE_NOOP("Core", "Definition from memory."),
    QT_TRANSLATE_NOOP("Core", "Definition seen in text."),
    QT_TRANSLATE_NOOP("Core", "Definition seen in encyclopedia text."),
    QT_TRANSLATE_NOOP("Core",
                      "Definition seen in encyclopedia text; which fifth carries the schisma from "
                      "memory (G♯–E♭)."),
    QT_TRANSLATE_NOOP("Core",
                      "Fifth 696.578 cents and the open 41.059 cents seen in encyclopedia text."),
    QT_TRANSLATE_NOOP("Core", "Cents rounded to integers seen in a reference table."),
    QT_TRANSLATE_NOOP("Core", "Cents rounded to integers seen in text."),
    QT_TRANSLATE_NOOP("Core", "Cents to six places seen in text."),
    QT_TRANSLATE_NOOP(
        "Core",
        "The first four notes (0, 96, 204, 300) seen in a reference table, the rest from memory."),
    QT_TRANSLATE_NOOP("Core", "String lengths seen in T. Dent's page on the Septenarius."),
    QT_TRANSLATE_NOOP("Core", "Cents to three places seen in correspondence on the Septenarius."),
    QT_TRANSLATE_NOOP("Core", "Fifth D–A as 40:27 seen in text; its schisma on F♯–C♯."),
    QT_TRANSLATE_NOOP("Core", "From memory of Barbour's table."),
    QT_TRANSLATE_NOOP("Core",
                      "From memory of Barbour's table; a text agrees that the fifth between the "
                      "two narrow ones is pure."),
    QT_TRANSLATE_NOOP(
        "Core",
        "From memory of Barbour's table; C–E pure, G–D–A–E in three equal parts, E–G♯–C in two."),
    QT_TRANSLATE_NOOP("Core", "From memory; D 9/8 and B♭ 9/5."),
    QT_TRANSLATE_NOOP("Core", "Fifths and integer cents seen in a text that quotes Dupont 1935."),
    QT_TRANSLATE_NOOP("Core", "Fifths derived from the printed monochord, seen in text."),
    QT_TRANSLATE_NOOP(
        "Core", "The four social labels seen in text; that Hof is equal temperament from memory."),
    QT_TRANSLATE_NOOP("Core", "Third 391.69, fifths 697.92 and 700.12 seen in encyclopedia text."),
    QT_TRANSLATE_NOOP("Core", "Seen in text as a common misreading."),
    QT_TRANSLATE_NOOP("Core",
                      "Offsets from equal to a tenth of a cent seen in correspondence of 1995."),
    QT_TRANSLATE_NOOP("Core", "Offsets from equal to a tenth of a cent seen in text."),
    QT_TRANSLATE_NOOP("Core", "E♭–G verified, the rest from memory."),
    QT_TRANSLATE_NOOP(
        "Core",
        "Printed monochord seen in text; the fifths F♯–C♯ and B♭–F follow from its lengths."),
    QT_TRANSLATE_NOOP("Core", "Quotation seen in text."),
    QT_TRANSLATE_NOOP("Core", "Rameau's words seen in text; the numbers from memory of Barbour."),
    QT_TRANSLATE_NOOP("Core", "The reading seen in correspondence."),
    QT_TRANSLATE_NOOP("Core", "The words seen in text; the numbers are a modern idealisation."),
    QT_TRANSLATE_NOOP(
        "Core", "That the comma is divided in seven seen in text; the place F to F♯ from memory."),
    QT_TRANSLATE_NOOP("Core", "Seen in a text that quotes Lange 1968."),
    QT_TRANSLATE_NOOP("Core", "C♯–G♯ about 9 and G♯–D♯ about 2 cents wide seen in text."),
    QT_TRANSLATE_NOOP("Core",
                      "Ten equal fifths, A♭–E♭ wide by as much, wolf at D♭–A♭, seen in text."),
    QT_TRANSLATE_NOOP(
        "Core",
        "How much it was used on organs and harpsichords before the 19th century is disputed."),
    QT_TRANSLATE_NOOP("Core", "Arnaut de Zwolle (about 1440) has the wolf at B–F♯ (Meister 1991)."),
    QT_TRANSLATE_NOOP("Core",
                      "Whether Aron meant an exact quarter comma for every fifth is debated: only "
                      "his first four are explicit (Lindley)."),
    QT_TRANSLATE_NOOP("Core",
                      "Sorge writes of a sixth of a comma without saying which. Barbour and German "
                      "writers take the Pythagorean (wolf wide by 19.55 cents), others the "
                      "syntonic; Ortgies doubts that any exact value was meant."),
    QT_TRANSLATE_NOOP("Core",
                      "Werckmeister left open which comma he divides; with the syntonic comma a "
                      "schisma remains over."),
    QT_TRANSLATE_NOOP("Core",
                      "D at 176 as printed makes G–D narrow by more than half a comma and is "
                      "thought a misprint for 175."),
    QT_TRANSLATE_NOOP("Core", "Printed is 176 for D; 175 is the usual correction."),
    QT_TRANSLATE_NOOP("Core", "Kirnberger printed A as 161/270, the half comma in whole numbers."),
    QT_TRANSLATE_NOOP("Core",
                      "The same scheme stands in Sorge 1744 (Meister 1991). The letter can also be "
                      "read unequally: see kirnberger-3-unequal."),
    QT_TRANSLATE_NOOP("Core", "A second reading of the same letter."),
    QT_TRANSLATE_NOOP("Core",
                      "In 1732 Neidhardt moved the labels up by one: the village of 1724 is the "
                      "small town of 1732."),
    QT_TRANSLATE_NOOP("Core", "In 1732 it is the large town."),
    QT_TRANSLATE_NOOP("Core", "F♯ is printed as 1420.48, 0.17 cent from what the fifths give."),
    QT_TRANSLATE_NOOP("Core", "The same sizes as equal temperament."),
    QT_TRANSLATE_NOOP("Core",
                      "Vallotti himself wrote six sixths of the syntonic comma with a schisma on "
                      "one more fifth (Barbieri); the form with the Pythagorean comma is not in "
                      "his text: see vallotti-treatise."),
    QT_TRANSLATE_NOOP("Core", "Which fifth carries the schisma."),
    QT_TRANSLATE_NOOP("Core",
                      "Often made simpler as sixths and twelfths of the Pythagorean comma, which "
                      "differs by less than 0.4 cent: see young-1-simplified."),
    QT_TRANSLATE_NOOP("Core", "Not what Young wrote."),
    QT_TRANSLATE_NOOP(
        "Core",
        "Kellner's printed fifth 697.28 and third 389.11 come from x⁴ + 2x − 8 = 0 (C–G and C–E "
        "beat alike); fifths of the comma give 697.26 and 389.05. That it is Bach's is disputed."),
    QT_TRANSLATE_NOOP("Core", "That it is Bach's is disputed."),
    QT_TRANSLATE_NOOP("Core", "The historical claim is widely disputed."),
    QT_TRANSLATE_NOOP("Core",
                      "Commentary on the passage says E–B and B♭–F; the words quoted from Marpurg "
                      "are B–F♯ and B♭–F."),
    QT_TRANSLATE_NOOP("Core",
                      "Rameau gives words only: seven fifths from B♭ weak by a quarter comma, then "
                      "gradually juster, the last two a little too wide."),
    QT_TRANSLATE_NOOP("Core", "Rameau gives words only; this takes his other starting note."),
    QT_TRANSLATE_NOOP("Core",
                      "The texts describe fifths that change gradually, not three equal groups."),
    QT_TRANSLATE_NOOP("Core", "Schlick gives words only; see the other reconstructions."),
    QT_TRANSLATE_NOOP(
        "Core", "Lange first (1968) took 3/16 of the syntonic comma. Schlick gives words only."),
    QT_TRANSLATE_NOOP(
        "Core",
        "Fogliano ends by taking the mean of his two D's, which is no ratio of whole numbers."),
};

} // namespace

std::span<const char* const> namePhrases() {
    return kNamePhrases;
}

} // namespace quillbench
