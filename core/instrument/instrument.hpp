#pragma once

#include "core/pitch/note.hpp"
#include "core/units/mechanics.hpp"

#include <compare>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace quillbench {

/// One key of a manual.
struct Key {
    Note
        note; ///< what its 8′ string sounds (short octaves are resolved: the E key of a C/E octave is C2)
    std::string shape; ///< "natural", "sharp", "sharp-front", "sharp-back" (split and broken keys)
    double column = 0; ///< place from the left in natural key widths, for drawing
};

/// The keys of an instrument, ascending in pitch. Every choir has one string for each key.
struct Compass {
    std::vector<Key> keys;
    std::string bassOctave; ///< "chromatic", "short C/E", "short GG/BB", "broken C/E"
};

/// Nominal octave of a choir, in feet. An 8′ string sounds the key's note, a 4′ an octave above.
enum class Footage { Sixteen, Eight, Four };

/// How a choir is kept from sounding while another is tuned.
enum class Silencing { Lever, Knee, Foot, HandAtTheRegister, FeltStrip, NotAtAll };

struct StringMake {
    Millimetre length; ///< speaking length
    Millimetre diameter;
    std::string material; ///< id of core/instrument/string materials
    std::optional<Millimetre> pinDiameter;
};

/// Where the pins of a choir sit: rows from the player, pin places from the left.
struct PinPlace {
    int row = 0;
    int place = 0;
};

/// One set of strings, one a key.
struct Choir {
    std::string id; ///< "8", "8b", "4", "16": as the command line writes it
    Footage footage = Footage::Eight;
    Silencing silencing = Silencing::Lever;
    std::vector<StringMake> strings;
    std::vector<PinPlace> pins;
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
};

enum class Coupler { None, Shove, Lever, Dogleg };

struct Manual {
    std::string name; ///< "lower", "upper"
};

struct Instrument {
    std::string id;
    std::string name;
    bool example = false; ///< one of our invented instruments
    Compass compass;
    std::vector<Manual> manuals;
    std::vector<Choir> choirs;
    std::vector<JackRegister> registers;
    Coupler coupler = Coupler::None;
    std::optional<std::size_t> buffChoir;
    double pitchStandardHz = 415.0; ///< a′ at the untransposed position
    std::vector<int> positions{0};  ///< keyboard positions in semitones of sounding pitch
};

/// Identity of a string: it stays when keys move over the strings.
struct StringId {
    std::size_t choir = 0;  ///< index into Instrument::choirs
    std::size_t course = 0; ///< counts from the lowest string of the choir

    auto operator<=>(const StringId&) const = default;
};

} // namespace quillbench
