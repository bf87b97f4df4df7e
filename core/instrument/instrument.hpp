#pragma once

#include "core/pitch/note.hpp"
#include "core/units/hertz.hpp"
#include "core/units/mechanics.hpp"

#include <bitset>
#include <compare>
#include <cstddef>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace quillbench {

/// One key of a manual.
struct Key {
    Note
        note; ///< what its 8′ string sounds (short octaves are resolved: the E key of a C/E octave is C2)
    std::string shape; ///< "natural", "sharp", "sharp-front", "sharp-back" (split and broken keys)
    double column = 0; ///< its middle line, from the left in natural key widths, for drawing

    bool operator==(const Key&) const = default;
};

/// The keys of an instrument, ascending in pitch.
struct Compass {
    std::vector<Key> keys;
    std::string bassOctave; ///< "chromatic", "short C/E", "short GG/BB", "broken C/E"

    bool operator==(const Compass&) const = default;
};

/// Nominal octave of a choir, in feet. An 8′ string sounds the key's note, a 4′ an octave above.
enum class Footage { Sixteen, Eight, Four };

/// How a choir is kept from sounding while another is tuned.
enum class Silencing { Lever, Knee, Foot, HandAtTheRegister, FeltStrip, NotAtAll };

struct StringMake {
    Millimetre length; ///< speaking length
    Millimetre diameter;
    std::string material; ///< id of core/instrument/material
    std::optional<Millimetre> pinDiameter;

    bool operator==(const StringMake&) const = default;
};

/// Where the pin of a string sits: rows from the player, pin places from the left; both count from 1,
/// 0 where it is not known.
struct PinPlace {
    int row = 0;
    int place = 0;

    bool operator==(const PinPlace&) const = default;
};

/// One set of strings, one a course, ascending in pitch.
struct Choir {
    std::string id; ///< "8", "8b", "4", "16": as the command line writes it
    Footage footage = Footage::Eight;
    Silencing silencing = Silencing::Lever;
    std::vector<StringMake> strings;
    std::vector<PinPlace> pins; ///< as many as strings

    bool operator==(const Choir&) const = default;
};

/// One row of jacks that plucks the strings of one choir.
struct JackRegister {
    std::string id;
    std::string name;
    std::size_t choir = 0;    ///< index into Instrument::choirs
    std::size_t manual = 0;   ///< index into Instrument::manuals
    bool dogleg = false;      ///< also played from the other manual
    bool lute = false;        ///< close to the nut; plucks strings that another row plucks too
    bool adjusters = false;   ///< jacks have adjusting screws
    double pluckPoint = 0.12; ///< distance from the nut as a fraction of the speaking length at c″
    double stagger = 0.0;     ///< millimetres of key travel at which it plucks

    bool operator==(const JackRegister&) const = default;
};

/// How the lower manual takes the upper one's registers along. A dogleg cannot be let go.
enum class Coupler { None, Shove, Lever, Dogleg };

struct Manual {
    std::string name; ///< "lower", "upper"

    bool operator==(const Manual&) const = default;
};

/// Everything that a tuner has to know of an instrument. Manuals count from the player's side: 0 is the lower.
/// Courses (places across the strings) count from the lowest; a choir has one string for each key, and where
/// the keyboard shifts it may have more.
struct Instrument {
    std::string id;
    std::string name;
    std::string maker;
    std::string place;
    bool example = false; ///< one of our invented instruments
    Compass compass;
    std::vector<Manual> manuals;
    std::vector<Choir> choirs;
    std::vector<JackRegister> registers;
    Coupler coupler = Coupler::None;
    std::optional<std::size_t> buffChoir;
    double pitchStandardHz = 415.0; ///< a′ at the untransposed position
    std::vector<int> positions{0};  ///< keyboard positions in semitones of sounding pitch

    bool operator==(const Instrument&) const = default;
};

/// Identity of a string: it stays when keys move over the strings.
struct StringId {
    std::size_t choir = 0;  ///< index into Instrument::choirs
    std::size_t course = 0; ///< counts from the lowest string of the choir

    auto operator<=>(const StringId&) const = default; // NOLINT(modernize-use-nullptr)
};

/// More rows of jacks than any known instrument has.
inline constexpr std::size_t kMostRegisters = 16;

/// Which registers are on, by their index in Instrument::registers.
using RegisterSet = std::bitset<kMostRegisters>;

/// How the instrument stands while it is played.
struct Registration {
    RegisterSet on;
    bool coupled = false; ///< the shove or lever coupler is engaged
    int position = 0;     ///< of the keyboard, one of Instrument::positions

    bool operator==(const Registration&) const = default;
};

/// One pluck of a key.
struct KeyPluck {
    std::size_t reg = 0; ///< index into Instrument::registers
    StringId string;

    bool operator==(const KeyPluck&) const = default;
};

/// Octaves that a choir sounds above the key's note: −1 for 16′, 0, +1 for 4′.
[[nodiscard]] int octavesAbove(Footage footage);

/// Index of the key that bears `note` exactly as spelled, else of one with the same place on a keyboard of
/// twelve (A♭ where there is only G♯); nothing where the compass has neither.
[[nodiscard]] std::optional<std::size_t> keyOf(const Compass& compass, const Note& note);

/// The course over which the keyboard holds a key at a position. At the lowest of the positions key 0 stands
/// at course 0. **Range** key < keys. May lie past the strings of a choir: then the key is mute there.
[[nodiscard]] std::size_t courseOf(const Instrument& instrument, std::size_t key, int position = 0);

/// The key that stands at a course at a position; nothing where no key does.
[[nodiscard]] std::optional<std::size_t>
keyAt(const Instrument& instrument, std::size_t course, int position = 0);

/// The string of a choir that a key plays; nothing where the note is not in the compass or the choir has no
/// string there. **Range** choir < choirs.
[[nodiscard]] std::optional<StringId>
stringOf(const Instrument& instrument, std::size_t choir, const Note& note, int position = 0);

/// Index of the choir with an id such as "8b".
[[nodiscard]] std::optional<std::size_t> choirOf(const Instrument& instrument, std::string_view id);

/// The note by which a string is named: that of the key standing over it. Courses that no key reaches at this
/// position go on chromatically past the ends of the compass.
[[nodiscard]] Note keyNote(const Instrument& instrument, StringId string, int position = 0);

/// The note a string sounds: a 4′ string of key A3 sounds A4.
[[nodiscard]] Note soundingNote(const Instrument& instrument, StringId string, int position = 0);

/// "second 8′, A♭3" for people.
[[nodiscard]] std::string
stringLabel(const Instrument& instrument, StringId string, int position = 0);

/// "8b:Ab3" for the command line.
[[nodiscard]] std::string
stringCode(const Instrument& instrument, StringId string, int position = 0);

/// "8′", "second 8′", "4′", "16′".
[[nodiscard]] std::string choirLabel(const Choir& choir);

/// What a string is tuned to, given the pitch of the 8′ note of each key at the position played.
/// A choir an octave away takes that pitch times two or a half.
[[nodiscard]] Hertz targetPitch(const Instrument& instrument,
                                StringId string,
                                const std::function<Hertz(const Note&)>& pitchOfKey,
                                int position = 0);

/// Equal temperament at the instrument's own standard, untransposed: what lengths and gauges were laid out
/// for. **Source** definition: 12 equal semitones, A4 at the standard.
[[nodiscard]] Hertz nominalPitch(const Instrument& instrument, StringId string);

/// Every pluck of one key on one manual, in the order of stagger. Rows that share a choir may pluck one
/// string twice. **Range** manual < manuals, key < keys.
[[nodiscard]] std::vector<KeyPluck> plucksOf(const Instrument& instrument,
                                             const Registration& registration,
                                             std::size_t manual,
                                             std::size_t key);

/// The different strings among plucksOf, in the order of their first pluck.
[[nodiscard]] std::vector<StringId> soundingStrings(const Instrument& instrument,
                                                    const Registration& registration,
                                                    std::size_t manual,
                                                    std::size_t key);

/// Whether two rows pluck the same strings and so can never be a unison.
[[nodiscard]] bool shareStrings(const Instrument& instrument, std::size_t a, std::size_t b);

/// The registers that pluck a choir.
[[nodiscard]] RegisterSet registersOf(const Instrument& instrument, std::size_t choir);

/// The one register to draw so that a choir is heard alone, the ordinary row before a lute; nothing where
/// none plucks it.
[[nodiscard]] std::optional<std::size_t> soloRegister(const Instrument& instrument,
                                                      std::size_t choir);

/// Choirs that sound along whenever `choir` is played alone, because they cannot be silenced.
[[nodiscard]] std::vector<std::size_t> unsilenced(const Instrument& instrument, std::size_t choir);

} // namespace quillbench
