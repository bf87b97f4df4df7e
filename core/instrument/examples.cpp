#include "core/instrument/examples.hpp"

#include "core/instrument/compass.hpp"
#include "core/support/contract.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace quillbench {

namespace {

/// Speaking length at a key, by the MIDI number of the key's 8′ note.
struct LengthAt {
    int key;
    double millimetres;
};

/// Wire for every key up to one, by MIDI number.
struct WireUpTo {
    int key;
    double millimetres;
    const char* material;
};

struct ChoirPlan {
    const char* id;
    Footage footage;
    Silencing silencing;
    int pinRow;
    double pinMillimetres;
    std::vector<LengthAt>
        lengths; ///< ascending; between and beyond: straight in log length over semitones
    std::vector<WireUpTo> wires; ///< ascending
};

constexpr const char* kIron = "iron";
constexpr const char* kYellow = "yellow-brass";
constexpr const char* kRed = "red-brass";

double lengthAt(const std::vector<LengthAt>& lengths, int key) {
    EXPECTS(lengths.size() >= 2);
    std::size_t upper = 1;
    while (upper + 1 < lengths.size() && lengths[upper].key < key) {
        ++upper;
    }
    const LengthAt& a = lengths[upper - 1];
    const LengthAt& b = lengths[upper];
    const double place = static_cast<double>(key - a.key) / (b.key - a.key);
    const double exact = a.millimetres * std::pow(b.millimetres / a.millimetres, place);
    return std::round(exact * 2.0) / 2.0;
}

const WireUpTo& wireAt(const std::vector<WireUpTo>& wires, int key) {
    const auto found =
        std::find_if(wires.begin(), wires.end(), [&](const WireUpTo& w) { return key <= w.key; });
    return found == wires.end() ? wires.back() : *found;
}

void addChoir(Instrument& instrument, const ChoirPlan& plan) {
    const auto [low, high] =
        std::minmax_element(instrument.positions.begin(), instrument.positions.end());
    const std::size_t courses =
        instrument.compass.keys.size() + static_cast<std::size_t>(*high - *low);
    Choir choir;
    choir.id = plan.id;
    choir.footage = plan.footage;
    choir.silencing = plan.silencing;
    for (std::size_t course = 0; course < courses; ++course) {
        const int key = keyNote(instrument, StringId{0, course}).midiNumber();
        const WireUpTo& wire = wireAt(plan.wires, key);
        choir.strings.push_back(StringMake{Millimetre(lengthAt(plan.lengths, key)),
                                           Millimetre(wire.millimetres),
                                           wire.material,
                                           Millimetre(plan.pinMillimetres)});
        choir.pins.push_back(PinPlace{plan.pinRow, static_cast<int>(course) + 1});
    }
    instrument.choirs.push_back(std::move(choir));
}

JackRegister
jackRow(const char* id, const char* name, std::size_t choir, double pluckPoint, double stagger) {
    JackRegister row;
    row.id = id;
    row.name = name;
    row.choir = choir;
    row.pluckPoint = pluckPoint;
    row.stagger = stagger;
    return row;
}

Note note(int midiNumber) {
    return chromaticNote(midiNumber);
}

constexpr int kF1 = 29;
constexpr int kMidiG1 = 31;
constexpr int kMidiC2 = 36;
constexpr int kC6 = 84;
constexpr int kD6 = 86;
constexpr int kF6 = 89;

ChoirPlan longEight(const char* id, int pinRow) {
    return {id,
            Footage::Eight,
            Silencing::Lever,
            pinRow,
            4.8,
            {{29, 1760},
             {36, 1580},
             {43, 1330},
             {48, 1100},
             {60, 640},
             {72, 332},
             {84, 168},
             {89, 127}},
            {{31, 0.60, kRed},
             {33, 0.52, kRed},
             {35, 0.52, kYellow},
             {37, 0.46, kYellow},
             {40, 0.40, kYellow},
             {43, 0.36, kYellow},
             {45, 0.33, kYellow},
             {49, 0.30, kIron},
             {56, 0.27, kIron},
             {66, 0.25, kIron},
             {77, 0.23, kIron},
             {90, 0.20, kIron}}};
}

ChoirPlan shortEight(const char* id, int pinRow) {
    ChoirPlan plan = longEight(id, pinRow);
    plan.lengths = {
        {29, 1730}, {36, 1550}, {43, 1300}, {48, 1070}, {60, 615}, {72, 318}, {84, 160}, {89, 120}};
    return plan;
}

ChoirPlan four(int pinRow) {
    return {"4",
            Footage::Four,
            Silencing::Lever,
            pinRow,
            4.5,
            {{29, 985}, {36, 870}, {43, 690}, {48, 560}, {60, 320}, {72, 165}, {84, 83}, {89, 62}},
            {{31, 0.46, kRed},
             {34, 0.40, kYellow},
             {37, 0.36, kYellow},
             {40, 0.33, kYellow},
             {41, 0.30, kYellow},
             {46, 0.27, kIron},
             {54, 0.25, kIron},
             {68, 0.23, kIron},
             {90, 0.20, kIron}}};
}

Instrument start(const char* id, const char* name, const char* maker, const char* place) {
    Instrument instrument;
    instrument.id = id;
    instrument.name = name;
    instrument.maker = maker;
    instrument.place = place;
    instrument.example = true;
    return instrument;
}

Instrument double884() {
    Instrument instrument = start("double-8-8-4",
                                  "Two-manual 8\u2032 8\u2032 4\u2032 (invented example)",
                                  "Ottilie Kielfeder (invented)",
                                  "Upper Plectrum (invented)");
    instrument.compass = chromaticCompass(note(kF1), note(kF6));
    instrument.manuals = {{"lower"}, {"upper"}};
    addChoir(instrument, longEight("8", 1));
    addChoir(instrument, shortEight("8b", 2));
    addChoir(instrument, four(3));
    instrument.registers = {jackRow("8", "back 8\u2032", 0, 0.16, 2.8),
                            jackRow("8b", "front 8\u2032", 1, 0.11, 3.6),
                            jackRow("4", "4\u2032", 2, 0.14, 2.0)};
    instrument.registers[1].manual = 1;
    for (JackRegister& row : instrument.registers) {
        row.adjusters = true;
    }
    instrument.coupler = Coupler::Shove;
    instrument.buffChoir = 1;
    return instrument;
}

Instrument single88() {
    Instrument instrument =
        start("single-8-8",
              "Single 8\u2032 8\u2032, brass, shifts from 415 to 440 (invented example)",
              "Serafino Corvopenna (invented)",
              "Borgo Saltarello (invented)");
    instrument.positions = {0, 1};
    instrument.compass = chromaticCompass(note(kMidiC2), note(kF6));
    instrument.manuals = {{"single"}};
    ChoirPlan plan{"8",
                   Footage::Eight,
                   Silencing::HandAtTheRegister,
                   1,
                   5.0,
                   {{36, 1600}, {48, 990}, {60, 515}, {72, 264}, {84, 132}, {89, 99}},
                   {{38, 0.46, kRed},
                    {40, 0.40, kYellow},
                    {43, 0.36, kYellow},
                    {47, 0.33, kYellow},
                    {53, 0.30, kYellow},
                    {62, 0.27, kYellow},
                    {72, 0.25, kYellow},
                    {80, 0.23, kYellow},
                    {90, 0.20, kYellow}}};
    addChoir(instrument, plan);
    plan.id = "8b";
    plan.pinRow = 2;
    for (LengthAt& at : plan.lengths) {
        at.millimetres *= 0.96;
    }
    addChoir(instrument, plan);
    instrument.registers = {jackRow("8", "back 8\u2032", 0, 0.17, 2.2),
                            jackRow("8b", "front 8\u2032", 1, 0.13, 3.0)};
    return instrument;
}

Instrument single84() {
    Instrument instrument = start("single-8-4",
                                  "Single 8\u2032 4\u2032, short octave GG/BB (invented example)",
                                  "Griet van der Penne (invented)",
                                  "Dokkenpolder (invented)");
    instrument.compass = shortOctaveGGBB(note(kD6));
    instrument.manuals = {{"single"}};
    ChoirPlan eight = longEight("8", 1);
    eight.silencing = Silencing::HandAtTheRegister;
    eight.lengths = {
        {31, 1610}, {36, 1480}, {43, 1240}, {48, 1040}, {60, 620}, {72, 326}, {84, 163}, {86, 145}};
    ChoirPlan octave = four(2);
    octave.silencing = Silencing::HandAtTheRegister;
    addChoir(instrument, eight);
    addChoir(instrument, octave);
    instrument.registers = {jackRow("8", "8\u2032", 0, 0.15, 2.8),
                            jackRow("4", "4\u2032", 1, 0.13, 2.0)};
    instrument.buffChoir = 0;
    return instrument;
}

Instrument double16884() {
    Instrument instrument =
        start("double-16-8-8-4",
              "Two-manual 16\u2032 8\u2032 8\u2032 4\u2032 with lute (invented example)",
              "Balthasar Rabenkiel (invented)",
              "Nieder-Springerbach (invented)");
    instrument.compass = chromaticCompass(note(kF1), note(kF6));
    instrument.manuals = {{"lower"}, {"upper"}};
    addChoir(instrument,
             {"16",
              Footage::Sixteen,
              Silencing::Lever,
              4,
              5.0,
              {{29, 2480}, {36, 2260}, {48, 1690}, {60, 1010}, {72, 580}, {84, 310}, {89, 236}},
              {{33, 0.80, kRed},
               {37, 0.70, kRed},
               {40, 0.60, kRed},
               {43, 0.52, kYellow},
               {48, 0.46, kYellow},
               {53, 0.40, kYellow},
               {57, 0.36, kYellow},
               {62, 0.33, kIron},
               {68, 0.30, kIron},
               {76, 0.27, kIron},
               {84, 0.25, kIron},
               {90, 0.23, kIron}}});
    addChoir(instrument, longEight("8", 1));
    addChoir(instrument, shortEight("8b", 2));
    addChoir(instrument, four(3));
    instrument.registers = {jackRow("16", "16\u2032", 0, 0.14, 4.4),
                            jackRow("8", "back 8\u2032", 1, 0.17, 2.8),
                            jackRow("8b", "front 8\u2032", 2, 0.12, 3.6),
                            jackRow("lute", "lute (front 8\u2032 at the nut)", 2, 0.05, 3.2),
                            jackRow("4", "4\u2032", 3, 0.14, 2.0)};
    instrument.registers[2].manual = 1;
    instrument.registers[3].manual = 1;
    instrument.registers[3].lute = true;
    for (JackRegister& row : instrument.registers) {
        row.adjusters = true;
    }
    instrument.coupler = Coupler::Shove;
    instrument.buffChoir = 1;
    return instrument;
}

Instrument spinet() {
    Instrument instrument = start("spinet",
                                  "Bentside spinet, one 8\u2032 (invented example)",
                                  "Prudence Quillon (invented)",
                                  "Jackrail-on-the-Wold (invented)");
    instrument.compass = chromaticCompass(note(kMidiG1), note(kD6));
    instrument.manuals = {{"single"}};
    addChoir(instrument,
             {"8",
              Footage::Eight,
              Silencing::NotAtAll,
              1,
              4.7,
              {{31, 1250}, {36, 1150}, {48, 925}, {60, 590}, {72, 322}, {84, 162}, {86, 144}},
              {{33, 0.60, kRed},
               {36, 0.52, kRed},
               {39, 0.46, kYellow},
               {43, 0.40, kYellow},
               {47, 0.36, kYellow},
               {51, 0.33, kYellow},
               {56, 0.30, kIron},
               {63, 0.27, kIron},
               {71, 0.25, kIron},
               {79, 0.23, kIron},
               {86, 0.20, kIron}}});
    instrument.registers = {jackRow("8", "8\u2032", 0, 0.18, 2.4)};
    return instrument;
}

Instrument virginal() {
    Instrument instrument = start("virginal",
                                  "Virginal, short octave C/E, brass (invented example)",
                                  "Ippolito Saltapenna (invented)",
                                  "Montecorista (invented)");
    instrument.pitchStandardHz = 440.0;
    instrument.compass = shortOctaveCE(note(kC6));
    instrument.manuals = {{"single"}};
    addChoir(instrument,
             {"8",
              Footage::Eight,
              Silencing::NotAtAll,
              1,
              5.0,
              {{36, 1310}, {41, 1150}, {48, 890}, {60, 480}, {72, 249}, {84, 124}},
              {{38, 0.46, kRed},
               {41, 0.40, kYellow},
               {45, 0.36, kYellow},
               {50, 0.33, kYellow},
               {57, 0.30, kYellow},
               {66, 0.27, kYellow},
               {76, 0.25, kYellow},
               {84, 0.23, kYellow}}});
    instrument.registers = {jackRow("8", "8\u2032", 0, 0.30, 2.4)};
    return instrument;
}

} // namespace

const std::vector<Instrument>& exampleInstruments() {
    static const std::vector<Instrument> kExamples{
        double884(), single88(), single84(), double16884(), spinet(), virginal()};
    return kExamples;
}

const Instrument* findExample(std::string_view id) {
    const auto& all = exampleInstruments();
    const auto found =
        std::find_if(all.begin(), all.end(), [&](const Instrument& i) { return i.id == id; });
    return found == all.end() ? nullptr : &*found;
}

std::string exampleIds() {
    std::string ids;
    for (const Instrument& instrument : exampleInstruments()) {
        ids += ids.empty() ? "" : ", ";
        ids += instrument.id;
    }
    return ids;
}

} // namespace quillbench
