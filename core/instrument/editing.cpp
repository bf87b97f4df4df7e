#include "core/instrument/editing.hpp"

#include "core/instrument/compass.hpp"
#include "core/instrument/limits.hpp"
#include "core/instrument/material.hpp"
#include "core/support/contract.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <set>
#include <utility>

namespace quillbench {

namespace {

/// Whether the ends of a range are those that a sentence below names.
constexpr bool saidAs(const Limits& limits, double low, double high) {
    return limits.holds(low) && limits.holds(high) && !limits.holds(low - 0.001) &&
           !limits.holds(high + 0.001);
}

static_assert(saidAs(kPitchStandardLimits, 300.0, 600.0));
static_assert(saidAs(kLengthLimits, 20.0, 4000.0));
static_assert(saidAs(kDiameterLimits, 0.05, 3.0));
static_assert(saidAs(kPinLimits, 2.0, 12.0));
static_assert(saidAs(kPluckPointLimits, 0.01, 0.5));
static_assert(saidAs(kStaggerLimits, 0.0, 15.0));
static_assert(saidAs(kPositionLimits, -12.0, 12.0));
static_assert(kMostManuals == 3 && kMostChoirs == 8 && kMostRegisters == 16);
static_assert(kMostKeys == 128 && kMostPositions == 8);

constexpr const char* kChromatic = "chromatic";
constexpr const char* kShortCE = "short C/E";
constexpr const char* kShortGGBB = "short GG/BB";
constexpr const char* kBrokenCE = "broken C/E";
constexpr int kLowestKey = 12;           // C0
constexpr int kHighestKey = 120;         // C9
constexpr int kFirstAboveBass = 48;      // C3: the special octaves lie below
constexpr std::size_t kLineCourses = 12; // what a line is carried on from, past an end
constexpr double kPluckPointAtFirst = 0.12;
constexpr double kPluckGapMillimetres = 1.0; // common practice, no source

/// A string that is laid and where it sounds, in semitones.
struct LaidString {
    double semitone = 0.0;
    StringMake make;
    PinPlace pin;
};

std::vector<LaidString> laidStrings(const Instrument& instrument, std::size_t choir) {
    std::vector<LaidString> laid;
    const Choir& all = instrument.choirs[choir];
    laid.reserve(all.strings.size());
    for (std::size_t course = 0; course < all.strings.size(); ++course) {
        laid.push_back({static_cast<double>(soundingNote(instrument, {choir, course}).midiNumber()),
                        all.strings[course],
                        all.pins[course]});
    }
    return laid;
}

/// Log length at a semitone: on the line of the strings on either side, past an end on that of the last octave.
double logLengthAt(const std::vector<LaidString>& laid, double semitone) {
    const auto at = [&](std::size_t i) { return std::log(laid[i].make.length.value()); };
    const auto upper =
        std::lower_bound(laid.begin(), laid.end(), semitone, [](const LaidString& s, double x) {
            return s.semitone < x;
        });
    const std::size_t last = laid.size() - 1;
    std::size_t a = 0;
    std::size_t b = last;
    if (upper == laid.begin()) {
        b = std::min(last, kLineCourses);
    } else if (upper == laid.end()) {
        a = last - std::min(last, kLineCourses);
    } else {
        b = static_cast<std::size_t>(upper - laid.begin());
        a = b - 1;
    }
    const double span = laid[b].semitone - laid[a].semitone;
    const double slope = span > 0.0 ? (at(b) - at(a)) / span : -std::log(2.0) / 12.0;
    return at(a) + slope * (semitone - laid[a].semitone);
}

StringMake makeAt(const std::vector<LaidString>& laid, double semitone) {
    const auto nearest =
        std::min_element(laid.begin(), laid.end(), [&](const auto& x, const auto& y) {
            return std::abs(x.semitone - semitone) < std::abs(y.semitone - semitone);
        });
    StringMake make = nearest->make;
    if (std::abs(nearest->semitone - semitone) > 0.0) {
        const double length = std::exp(logLengthAt(laid, semitone));
        make.length = Millimetre(
            std::round(std::clamp(length, kLengthLimits.low, kLengthLimits.high) * 2.0) / 2.0);
    }
    return make;
}

/// Whether the pins of a choir are simply counted from the bass.
bool countedPins(const Choir& choir) {
    for (std::size_t i = 0; i < choir.pins.size(); ++i) {
        if (choir.pins[i].place != static_cast<int>(i) + 1) {
            return false;
        }
    }
    return true;
}

std::size_t coursesOf(const Instrument& instrument) {
    const auto [low, high] =
        std::minmax_element(instrument.positions.begin(), instrument.positions.end());
    return instrument.compass.keys.size() + static_cast<std::size_t>(*high - *low);
}

/// The choirs of `before` under the keys of `after`: strings that sounded the same note are kept.
void layAgain(const Instrument& before, Instrument& after) {
    const std::size_t courses = coursesOf(after);
    for (std::size_t c = 0; c < after.choirs.size(); ++c) {
        const std::vector<LaidString> laid = laidStrings(before, c);
        const bool counted = countedPins(before.choirs[c]);
        Choir& choir = after.choirs[c];
        choir.strings.clear();
        choir.pins.clear();
        for (std::size_t course = 0; course < courses; ++course) {
            const Note note = keyNote(after, {c, course});
            const double semitone = soundingNote(after, {c, course}).midiNumber();
            std::optional<std::size_t> same;
            for (std::size_t old = 0; old < laid.size() && !same; ++old) {
                if (keyNote(before, {c, old}) == note) {
                    same = old;
                }
            }
            choir.strings.push_back(same ? laid[*same].make : makeAt(laid, semitone));
            PinPlace pin = same ? laid[*same].pin : PinPlace{laid.front().pin.row, 0};
            if (counted) {
                pin.place = static_cast<int>(course) + 1;
            }
            choir.pins.push_back(pin);
        }
    }
}

template <typename T>
std::string freeId(const std::vector<T>& taken, const std::string& wanted) {
    const auto isTaken = [&](const std::string& id) {
        return std::any_of(taken.begin(), taken.end(), [&](const T& one) { return one.id == id; });
    };
    std::string id = wanted;
    for (char suffix = 'b'; isTaken(id); ++suffix) {
        id = wanted + suffix;
    }
    return id;
}

std::string feetText(Footage footage) {
    return footage == Footage::Sixteen ? "16" : footage == Footage::Four ? "4" : "8";
}

/// The choir of which a new one takes its strings: of the same footage, else the one nearest in pitch.
std::size_t modelFor(const Instrument& instrument, Footage footage) {
    std::size_t best = 0;
    for (std::size_t c = 1; c < instrument.choirs.size(); ++c) {
        const auto away = [&](std::size_t one) {
            return std::abs(octavesAbove(instrument.choirs[one].footage) - octavesAbove(footage));
        };
        if (away(c) < away(best)) {
            best = c;
        }
    }
    return best;
}

JackRegister newRegister(const Instrument& instrument, std::size_t choir) {
    JackRegister row;
    row.id = freeId(instrument.registers, instrument.choirs[choir].id);
    row.name = choirLabel(instrument.choirs[choir]);
    row.choir = choir;
    row.pluckPoint = kPluckPointAtFirst;
    double last = 0.0;
    for (const JackRegister& other : instrument.registers) {
        last = std::max(last, other.stagger);
    }
    row.stagger = std::min(last + kPluckGapMillimetres, kStaggerLimits.high);
    return row;
}

Unexpected<Error> cannot(const std::string& why) {
    return failure(ErrorCode::BadArgument, why);
}

} // namespace

const std::vector<std::string>& bassOctaves() {
    static const std::vector<std::string> kAll{kChromatic, kShortCE, kShortGGBB, kBrokenCE};
    return kAll;
}

Result<Instrument> withCompass(Instrument instrument,
                               std::string_view bassOctave,
                               const Note& low,
                               const Note& high,
                               bool splitSharps) {
    const bool chromatic = bassOctave == kChromatic;
    const int lowest = chromatic ? low.midiNumber() : kFirstAboveBass;
    if (high.midiNumber() <= lowest || high.midiNumber() > kHighestKey || lowest < kLowestKey) {
        return cannot(
            "the highest key has to lie above the lowest (above C3 with a short or broken "
            "octave), both from C0 to C9");
    }
    Compass compass;
    if (chromatic) {
        compass = chromaticCompass(low, high);
    } else if (bassOctave == kShortCE) {
        compass = shortOctaveCE(high);
    } else if (bassOctave == kShortGGBB) {
        compass = shortOctaveGGBB(high);
    } else if (bassOctave == kBrokenCE) {
        compass = brokenOctaveCE(high);
    } else {
        return cannot("the lowest octave is chromatic, short C/E, short GG/BB or broken C/E");
    }
    if (splitSharps) {
        compass = withSplitSharps(std::move(compass), {{Letter::E, -1}, {Letter::G, 1}});
    }
    if (compass.keys.size() > kMostKeys) {
        return cannot("a keyboard has at most 128 keys");
    }
    const Instrument before = instrument;
    instrument.compass = std::move(compass);
    layAgain(before, instrument);
    return instrument;
}

bool hasSplitSharps(const Compass& compass) {
    return std::any_of(compass.keys.begin(), compass.keys.end(), [](const Key& key) {
        return key.shape == "sharp-back" && key.note.midiNumber() >= kFirstAboveBass;
    });
}

Result<Instrument> withPositions(Instrument instrument, std::vector<int> positions) {
    const std::set<int> different(positions.begin(), positions.end());
    const bool inside = std::all_of(
        positions.begin(), positions.end(), [](int one) { return kPositionLimits.holds(one); });
    if (different.count(0) == 0 || different.size() != positions.size() || !inside ||
        positions.size() > kMostPositions) {
        return cannot("positions of the keyboard are whole semitones from -12 to 12, each once, at "
                      "most 8, and 0 among them");
    }
    const Instrument before = instrument;
    instrument.positions = std::move(positions);
    layAgain(before, instrument);
    return instrument;
}

Result<Instrument> withManuals(Instrument instrument, std::size_t count) {
    if (count < 1 || count > kMostManuals) {
        return cannot("an instrument has 1 to 3 manuals");
    }
    static const std::array<std::vector<std::string>, kMostManuals> kNames{
        {{"single"}, {"lower", "upper"}, {"lower", "middle", "upper"}}};
    if (count != instrument.manuals.size()) {
        instrument.manuals.clear();
        for (const std::string& name : kNames[count - 1]) {
            instrument.manuals.push_back(Manual{name});
        }
    }
    for (JackRegister& row : instrument.registers) {
        row.manual = std::min(row.manual, count - 1);
        row.dogleg = row.dogleg && count > 1;
    }
    if (count == 1) {
        instrument.coupler = Coupler::None;
    }
    return instrument;
}

Result<Instrument> withCoupler(Instrument instrument, Coupler coupler) {
    if (coupler != Coupler::None && instrument.manuals.size() < 2) {
        return cannot("there is one manual and nothing to couple: give it a second one first");
    }
    instrument.coupler = coupler;
    return instrument;
}

Result<Instrument> withStandard(Instrument instrument, double a4Hz) {
    if (!kPitchStandardLimits.holds(a4Hz)) {
        return cannot("a' is given as 300 to 600 Hz");
    }
    instrument.pitchStandardHz = a4Hz;
    return instrument;
}

Result<Instrument> withChoir(Instrument instrument, Footage footage) {
    if (instrument.choirs.size() >= kMostChoirs || instrument.registers.size() >= kMostRegisters) {
        return cannot("an instrument has at most 8 choirs and 16 registers");
    }
    const std::vector<LaidString> laid = laidStrings(instrument, modelFor(instrument, footage));
    Choir choir;
    choir.id = freeId(instrument.choirs, feetText(footage));
    choir.footage = footage;
    instrument.choirs.push_back(choir);
    const std::size_t index = instrument.choirs.size() - 1;
    for (std::size_t course = 0; course < coursesOf(instrument); ++course) {
        const double semitone = soundingNote(instrument, {index, course}).midiNumber();
        instrument.choirs[index].strings.push_back(makeAt(laid, semitone));
        instrument.choirs[index].pins.push_back(
            {static_cast<int>(index) + 1, static_cast<int>(course) + 1});
    }
    instrument.registers.push_back(newRegister(instrument, index));
    return instrument;
}

Result<Instrument> withoutChoir(Instrument instrument, std::size_t choir) {
    EXPECTS(choir < instrument.choirs.size());
    std::vector<JackRegister> kept;
    for (JackRegister row : instrument.registers) {
        if (row.choir != choir) {
            row.choir -= row.choir > choir ? 1 : 0;
            kept.push_back(std::move(row));
        }
    }
    if (instrument.choirs.size() < 2 || kept.empty()) {
        return cannot("the last choir stays: an instrument has one and a register that plucks it");
    }
    instrument.registers = std::move(kept);
    instrument.choirs.erase(instrument.choirs.begin() + static_cast<std::ptrdiff_t>(choir));
    if (instrument.buffChoir == choir) {
        instrument.buffChoir.reset();
    } else if (instrument.buffChoir && *instrument.buffChoir > choir) {
        --*instrument.buffChoir;
    }
    return instrument;
}

Result<Instrument> withRegister(Instrument instrument, std::size_t choir) {
    EXPECTS(choir < instrument.choirs.size());
    if (instrument.registers.size() >= kMostRegisters) {
        return cannot("an instrument has at most 8 choirs and 16 registers");
    }
    instrument.registers.push_back(newRegister(instrument, choir));
    return instrument;
}

Result<Instrument> withoutRegister(Instrument instrument, std::size_t reg) {
    EXPECTS(reg < instrument.registers.size());
    if (instrument.registers.size() < 2) {
        return cannot("the last register stays: without one no string is plucked");
    }
    instrument.registers.erase(instrument.registers.begin() + static_cast<std::ptrdiff_t>(reg));
    return instrument;
}

Result<Instrument> withRegisterAs(Instrument instrument, std::size_t reg, JackRegister wanted) {
    EXPECTS(reg < instrument.registers.size());
    if (wanted.name.empty()) {
        return cannot("a register needs a name, such as front 8\u2032");
    }
    if (wanted.choir >= instrument.choirs.size() || wanted.manual >= instrument.manuals.size()) {
        return cannot("a register plucks a choir and is played from a manual of the instrument");
    }
    if (wanted.dogleg && instrument.manuals.size() < 2) {
        return cannot("a dogleg is played from two manuals and here is one");
    }
    if (!kPluckPointLimits.holds(wanted.pluckPoint)) {
        return cannot("the plucking point lies at 1 to 50 % of the speaking length");
    }
    if (!kStaggerLimits.holds(wanted.stagger)) {
        return cannot("a register plucks after 0 to 15 mm of key travel");
    }
    wanted.id = instrument.registers[reg].id;
    instrument.registers[reg] = std::move(wanted);
    return instrument;
}

Result<Instrument>
withString(Instrument instrument, StringId string, const StringMake& make, PinPlace pin) {
    EXPECTS(string.choir < instrument.choirs.size());
    EXPECTS(string.course < instrument.choirs[string.choir].strings.size());
    if (!kLengthLimits.holds(make.length.value())) {
        return cannot("a speaking length is 20 to 4000 mm");
    }
    if (!kDiameterLimits.holds(make.diameter.value())) {
        return cannot("wire is 0.05 to 3 mm thick");
    }
    if (findMaterial(make.material) == nullptr) {
        return cannot("the material is one of " + materialIds());
    }
    if (make.pinDiameter && !kPinLimits.holds(make.pinDiameter->value())) {
        return cannot("a tuning pin is 2 to 12 mm thick");
    }
    // What was not touched stays, also where a file has what nobody would enter.
    const PinPlace& before = instrument.choirs[string.choir].pins[string.course];
    if ((pin.row != before.row && !kPinRowsEntered.holds(pin.row)) ||
        (pin.place != before.place && !kPinPlacesEntered.holds(pin.place))) {
        return cannot("pins lie in rows 1 to 12, at places 1 to 400 of a row; 0 is not known");
    }
    instrument.choirs[string.choir].strings[string.course] = make;
    instrument.choirs[string.choir].pins[string.course] = pin;
    return instrument;
}

Result<Instrument>
withLengthsBetween(Instrument instrument, std::size_t choir, std::size_t from, std::size_t to) {
    EXPECTS(choir < instrument.choirs.size());
    EXPECTS(to < instrument.choirs[choir].strings.size());
    if (to < from + 2) {
        return cannot("mark three strings or more: the first and the last keep their length, those "
                      "between are filled in");
    }
    const std::vector<LaidString> laid = laidStrings(instrument, choir);
    const std::vector<LaidString> ends{laid[from], laid[to]};
    for (std::size_t course = from + 1; course < to; ++course) {
        instrument.choirs[choir].strings[course].length =
            Millimetre(std::exp(logLengthAt(ends, laid[course].semitone)));
    }
    return instrument;
}

Result<Instrument>
withWireOfFirst(Instrument instrument, std::size_t choir, std::size_t from, std::size_t to) {
    EXPECTS(choir < instrument.choirs.size());
    EXPECTS(to < instrument.choirs[choir].strings.size());
    if (to <= from) {
        return cannot("mark two strings or more: all take the wire of the first");
    }
    std::vector<StringMake>& strings = instrument.choirs[choir].strings;
    for (std::size_t course = from + 1; course <= to; ++course) {
        strings[course].diameter = strings[from].diameter;
        strings[course].material = strings[from].material;
    }
    return instrument;
}

} // namespace quillbench
