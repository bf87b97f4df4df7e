#include "app/text/core_phrases.hpp"

#include <QtGlobal>

namespace quillbench {

namespace {

// Long phrases are broken into several literals on purpose.
// NOLINTBEGIN(bugprone-suspicious-missing-comma)
constexpr const char* kErrorPhrases[] = {
    QT_TRANSLATE_NOOP(
        "Core", "the sound server does not answer: it is tried again; if this lasts, restart it"),
    QT_TRANSLATE_NOOP("Core", "%1 is open again: waiting for its sound"),
    QT_TRANSLATE_NOOP("Core", "%1 has fallen silent"),
    QT_TRANSLATE_NOOP(
        "Core",
        "no sound input is there: connect a microphone; it is taken as soon as it is found"),
    QT_TRANSLATE_NOOP("Core",
                      "no sound output is there: connect a loudspeaker or headphones; they are "
                      "taken as soon as found"),
    QT_TRANSLATE_NOOP(
        "Core",
        "%1 is not there: connect it, or choose another; it is taken as soon as it is found"),
    QT_TRANSLATE_NOOP("Core", "%1 does not work at %2 Hz: choose another rate, such as %3"),
    QT_TRANSLATE_NOOP("Core", "%1 has %2 channels, number %3 was asked for: choose one it has"),
    QT_TRANSLATE_NOOP("Core",
                      "%1 does not open (%2): end other programs that may hold it, or choose "
                      "another; it is tried again every second"),
    QT_TRANSLATE_NOOP("Core", "%1 is gone: connect it again; it is looked for every second"),
    QT_TRANSLATE_NOOP("Core", "%1 gives no sound: it is opened again every second"),
    QT_TRANSLATE_NOOP("Core", "the default %1"),
    QT_TRANSLATE_NOOP("Core", "the %1 '%2'"),
    QT_TRANSLATE_NOOP("Core", "sound input"),
    QT_TRANSLATE_NOOP("Core", "sound output"),
    QT_TRANSLATE_NOOP(
        "Core", "the sound system does not start (%1): check that sound works in other programs"),
    QT_TRANSLATE_NOOP("Core",
                      "the sound system does not say which devices it has: the sound server may "
                      "hang; restart it, or try again"),
    QT_TRANSLATE_NOOP("Core", "the analysis stopped by an internal fault (%1): start it again"),
    QT_TRANSLATE_NOOP("Core", "the sound is being kept already: end that recording first"),
    QT_TRANSLATE_NOOP("Core", "no sound is being kept: begin a recording first"),
    QT_TRANSLATE_NOOP("Core",
                      "the tone is heard at %1 Hz, %2 ppm from the trusted one; a clock errs by "
                      "less than 1000 ppm: check which tone it is, and the rate of the device"),
    QT_TRANSLATE_NOOP("Core", "it is too soft, its loudness varies, or it is not steady"),
    QT_TRANSLATE_NOOP("Core", "less than five seconds of sound"),
    QT_TRANSLATE_NOOP("Core", "its loudness varies"),
    QT_TRANSLATE_NOOP("Core", "its pitch is not steady"),
    QT_TRANSLATE_NOOP("Core",
                      "no steady tone is heard near %1 Hz (%2): bring it closer, keep the room "
                      "quiet, and hold it for ten seconds"),
    QT_TRANSLATE_NOOP("Core",
                      "the recording stopped (%1); make room on the disk or choose another folder"),
    QT_TRANSLATE_NOOP("Core", "the disk does not keep up"),
    QT_TRANSLATE_NOOP("Core", "a file of this name is there already: choose another"),
    QT_TRANSLATE_NOOP("Core",
                      "the recording cannot be begun (%1): choose a folder that can be written to"),
    QT_TRANSLATE_NOOP("Core", "there is no such file; look at its path"),
    QT_TRANSLATE_NOOP("Core", "this is a folder, give a sound file"),
    QT_TRANSLATE_NOOP("Core", "the file is empty"),
    QT_TRANSLATE_NOOP("Core",
                      "not a sound file that can be read (%1): give WAV, FLAC, AIFF or Ogg"),
    QT_TRANSLATE_NOOP("Core", "its rate is %1 Hz: 8000 to 192000 Hz can be used"),
    QT_TRANSLATE_NOOP("Core", "it is cut short: it holds less sound than its header says"),
    QT_TRANSLATE_NOOP("Core", "it is cut short: %1 of %2 frames can be read"),
    QT_TRANSLATE_NOOP("Core", "it holds no sound"),
    QT_TRANSLATE_NOOP("Core", "sample %1 is not a finite number: export the sound again"),
    QT_TRANSLATE_NOOP("Core",
                      "the highest key has to lie above the lowest (above C3 with a short or "
                      "broken octave), both from C0 to C9"),
    QT_TRANSLATE_NOOP("Core", "a keyboard has at most 128 keys"),
    QT_TRANSLATE_NOOP("Core",
                      "positions of the keyboard are whole semitones from -12 to 12, each once, at "
                      "most 8, and 0 among them"),
    QT_TRANSLATE_NOOP("Core", "an instrument has 1 to 3 manuals"),
    QT_TRANSLATE_NOOP("Core",
                      "there is one manual and nothing to couple: give it a second one first"),
    QT_TRANSLATE_NOOP("Core", "a' is given as 300 to 600 Hz"),
    QT_TRANSLATE_NOOP("Core", "an instrument has at most 8 choirs and 16 registers"),
    QT_TRANSLATE_NOOP("Core",
                      "the last choir stays: an instrument has one and a register that plucks it"),
    QT_TRANSLATE_NOOP("Core", "the last register stays: without one no string is plucked"),
    QT_TRANSLATE_NOOP("Core", "a register needs a name, such as front 8\u2032"),
    QT_TRANSLATE_NOOP("Core", "a dogleg is played from two manuals and here is one"),
    QT_TRANSLATE_NOOP("Core", "the plucking point lies at 1 to 50 % of the speaking length"),
    QT_TRANSLATE_NOOP("Core", "a register plucks after 0 to 15 mm of key travel"),
    QT_TRANSLATE_NOOP("Core", "a speaking length is 20 to 4000 mm"),
    QT_TRANSLATE_NOOP("Core", "wire is 0.05 to 3 mm thick"),
    QT_TRANSLATE_NOOP("Core", "a tuning pin is 2 to 12 mm thick"),
    QT_TRANSLATE_NOOP("Core",
                      "pins lie in rows 1 to 12, at places 1 to 400 of a row; 0 is not known"),
    QT_TRANSLATE_NOOP("Core",
                      "mark three strings or more: the first and the last keep their length, those "
                      "between are filled in"),
    QT_TRANSLATE_NOOP("Core", "mark two strings or more: all take the wire of the first"),
    QT_TRANSLATE_NOOP("Core", "not heard yet: %1; all twelve notes are needed"),
    QT_TRANSLATE_NOOP("Core", "fifths: %1 is %2 cents from pure, allowed is -100 to +100"),
    QT_TRANSLATE_NOOP("Core",
                      "fifths: what is left for the last fifth, %1, is %2 cents from pure, allowed "
                      "is -100 to +100"),
    QT_TRANSLATE_NOOP(
        "Core",
        "fifths: the circle does not close, it is open by %1 cents (the twelve temperings have to "
        "add up to -23.460); change a fifth by as much, or leave the last one out"),
    QT_TRANSLATE_NOOP("Core",
                      "notes: only a regular temperament, whose fifths are all alike, goes on "
                      "beyond its twelve notes; '%1' is not one"),
    QT_TRANSLATE_NOOP("Core",
                      "'%1' is not the tempering of a fifth: write 0 (pure), fractions of a comma "
                      "such as -1/4S (syntonic), -1/6P (Pythagorean) or -1P+11/4S, a ratio such as "
                      "392/393, or cents such as -5.38c, together within -100 to +100 cents"),
    QT_TRANSLATE_NOOP(
        "Core",
        "the octave from %1 is not whole on this compass; choose C3 or F3 as its lowest key"),
    QT_TRANSLATE_NOOP("Core", "the reference choir cannot be left alone; choose another reference"),
    QT_TRANSLATE_NOOP(
        "Core", "no row of jacks plucks the %1; leave that choir alone or give it a register"),
    QT_TRANSLATE_NOOP("Core", "the keyboard has no position %1"),
    QT_TRANSLATE_NOOP("Core", "no such file; look at its path"),
    QT_TRANSLATE_NOOP("Core", "not a regular file; give one"),
    QT_TRANSLATE_NOOP("Core", "larger than %1 MiB, which no file of ours is; give another"),
    QT_TRANSLATE_NOOP("Core", "cannot be read (%1); look at its permissions"),
    QT_TRANSLATE_NOOP(
        "Core",
        "cannot be written (%1); choose a folder that may be written, with room on its disk"),
    QT_TRANSLATE_NOOP("Core", "cannot be replaced (%1); look at the permissions of its folder"),
    QT_TRANSLATE_NOOP("Core", "no such file, nor an example (%1)"),
    QT_TRANSLATE_NOOP("Core", "larger than %1 MiB, which no such file is"),
    QT_TRANSLATE_NOOP("Core", "larger than %1 MiB, which no such list is"),
    QT_TRANSLATE_NOOP("Core",
                      "not JSON at line %1: look there for a missing comma, quote or bracket"),
    QT_TRANSLATE_NOOP("Core",
                      "the list is empty: the first row names the columns, choir and key at least"),
    QT_TRANSLATE_NOOP("Core", "no CSV file in it; give the folder of an export"),
    QT_TRANSLATE_NOOP("Core", "empty; give an export of the logbook"),
    QT_TRANSLATE_NOOP("Core",
                      "an event of schema %1: this version knows %2; go on with the version that "
                      "began the session"),
    QT_TRANSLATE_NOOP("Core", "no temperament '%1': %2; or give a temperament file (.json)"),
    QT_TRANSLATE_NOOP("Core", "'quillbench-cli temperament' lists them all"),
    QT_TRANSLATE_NOOP("Core", "perhaps %1"),
    QT_TRANSLATE_NOOP("Core", "another program is writing to this logbook; try again in a moment"),
    QT_TRANSLATE_NOOP("Core", "the disk is full; free some space, nothing kept before is lost"),
    QT_TRANSLATE_NOOP("Core", "cannot be written; give it write permission or name another file"),
    QT_TRANSLATE_NOOP("Core", "cannot be opened; look whether its folder is there and may be used"),
    QT_TRANSLATE_NOOP("Core", "the disk does not answer (%1); look whether it is still there"),
    QT_TRANSLATE_NOOP("Core", "the logbook refused (%1)"),
    QT_TRANSLATE_NOOP(
        "Core", "damaged, or no logbook (%1); 'quillbench-cli log repair' saves what can be read"),
    QT_TRANSLATE_NOOP("Core",
                      "damaged (%1), opened for reading only; 'quillbench-cli log repair' saves "
                      "what can be read"),
    QT_TRANSLATE_NOOP("Core",
                      "the power went or the disk erred while it was written: last entries that "
                      "were not acknowledged may be missing"),
    QT_TRANSLATE_NOOP("Core",
                      "cannot be written, opened for reading only; give it and its folder write "
                      "permission, or name another file"),
    QT_TRANSLATE_NOOP("Core", "another window has gone on with this session; close one of them"),
    QT_TRANSLATE_NOOP("Core", "a folder; name a file in it"),
    QT_TRANSLATE_NOOP("Core", "there is no such logbook; look at its path"),
    QT_TRANSLATE_NOOP("Core", "its folder cannot be made (%1); name another file"),
    QT_TRANSLATE_NOOP("Core", "its head does not agree with its tables"),
    QT_TRANSLATE_NOOP("Core", "not a logbook of Quillbench; name another file"),
    QT_TRANSLATE_NOOP("Core",
                      "written by a newer version of Quillbench (schema %1, this one knows up to "
                      "%2); use that version"),
    QT_TRANSLATE_NOOP("Core", "its structure cannot be read"),
    QT_TRANSLATE_NOOP("Core", "its tables are not those of a logbook"),
    QT_TRANSLATE_NOOP("Core", "its tables are not those of its schema"),
    QT_TRANSLATE_NOOP("Core", "is there already; give another name"),
    QT_TRANSLATE_NOOP("Core", "the copy is not what was copied; try again"),
    QT_TRANSLATE_NOOP("Core", "cannot be written (%1); choose another place"),
    QT_TRANSLATE_NOOP("Core",
                      "nothing of it can be read; 'quillbench-cli log restore BACKUP' puts a "
                      "backup in its place"),
    QT_TRANSLATE_NOOP("Core", "nothing of it can be read"),
    QT_TRANSLATE_NOOP("Core",
                      "there is no home folder to keep the logbook in; name a file with --logbook"),
};
// NOLINTEND(bugprone-suspicious-missing-comma)

} // namespace

std::span<const char* const> errorPhrases() {
    return kErrorPhrases;
}

} // namespace quillbench
