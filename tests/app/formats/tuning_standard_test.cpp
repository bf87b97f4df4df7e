#include "app/formats/tuning_standard.hpp"
#include "core/temperament/catalogue.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <cstdio>
#include <string>

using namespace quillbench;

namespace {

TunedScale tuned(const std::string& id, double a4Hz) {
    const Temperament* found = findTemperament(id);
    REQUIRE(found != nullptr);
    return {*found, ReferencePitch{Hertz(a4Hz)}};
}

std::string hex(const SystemExclusive& message) {
    std::string text;
    for (const std::uint8_t byte : message) {
        char digits[4];
        std::snprintf(digits, sizeof digits, "%02X ", byte);
        text += digits;
    }
    text.pop_back();
    return text;
}

double hertzOf(const std::uint8_t* bytes) {
    const double semitones = bytes[0] + (bytes[1] * 128 + bytes[2]) / 16384.0;
    return 440.0 * std::exp2((semitones - 69.0) / 12.0);
}

} // namespace

TEST_CASE("frequency data has the bytes of the standard's own table", "[unit]") {
    // MIDI 1.0 Detailed Specification 96.1, MIDI Tuning, table of frequency data (values from memory; 45 00 00 for
    // A4, 3C 00 00 for C4 and the reserved 7F 7F 7F seen in text that quotes it).
    const auto data = [](double hz) { return frequencyData(Hertz(hz)).value(); };
    CHECK(data(8.1758) == FrequencyData{0x00, 0x00, 0x00});
    CHECK(data(8.661957218) == FrequencyData{0x01, 0x00, 0x00});
    CHECK(data(16.351597831) == FrequencyData{0x0C, 0x00, 0x00});
    CHECK(data(261.625565301) == FrequencyData{0x3C, 0x00, 0x00});
    CHECK(data(277.182630977) == FrequencyData{0x3D, 0x00, 0x00});
    CHECK(data(439.9984) == FrequencyData{0x44, 0x7F, 0x7F});
    CHECK(data(440.0) == FrequencyData{0x45, 0x00, 0x00});
    CHECK(data(440.0016) == FrequencyData{0x45, 0x00, 0x01});
    CHECK(data(12543.853951) == FrequencyData{0x7F, 0x00, 0x00});
    CHECK(data(13289.656) == FrequencyData{0x7F, 0x7F, 0x7E});
    CHECK_FALSE(frequencyData(Hertz(8.1)).has_value());
    CHECK_FALSE(frequencyData(Hertz(13289.8)).has_value());
}

TEST_CASE("scale/octave tuning in one byte is the message of the standard", "[unit]") {
    // F0 7F id 08 08 ff gg hh ss×12 F7, 40h = no offset (value from memory).
    CHECK(hex(*octaveTuningOneByte(tuned("equal", 415.0))) ==
          "F0 7F 7F 08 08 03 7F 7F 40 40 40 40 40 40 40 40 40 40 40 40 F7");
    // Vallotti from A: C +5.9, C♯ 0, D +2.0, E♭ +3.9, E −2.0, F +7.8, F♯ −2.0, G +3.9, G♯ +2.0, A 0, B♭ +5.9, B −3.9.
    CHECK(hex(*octaveTuningOneByte(tuned("vallotti", 415.0), {0x10, 0})) ==
          "F0 7F 10 08 08 03 7F 7F 46 40 42 44 3E 48 3E 44 42 40 46 3C F7");
}

TEST_CASE("scale/octave tuning in two bytes is the message of the standard", "[unit]") {
    // F0 7F id 08 09 ff gg hh (ss tt)×12 F7, 40 00 = no offset, 00 00 = −100 cents (value from memory).
    CHECK(
        hex(*octaveTuningTwoBytes(tuned("equal", 415.0))) ==
        "F0 7F 7F 08 09 03 7F 7F 40 00 40 00 40 00 40 00 40 00 40 00 40 00 40 00 40 00 40 00 40 00 "
        "40 00 F7");
    const auto vallotti = octaveTuningTwoBytes(tuned("vallotti", 415.0));
    REQUIRE(vallotti.hasValue());
    REQUIRE(vallotti->size() == 8 + 24 + 1);
    // C: +5.865003 cents are 480.46 steps of 100/8192: 8192 + 480 = 43h 60h.
    CHECK((*vallotti)[8] == 0x43);
    CHECK((*vallotti)[9] == 0x60);
}

TEST_CASE("an offset that a message cannot hold is refused with the note", "[unit]") {
    TemperamentDescription description;
    description.id = "far-out";
    // Five fifths narrow by 20 cents from E♭ up to D leave it 90 cents from equal beside A.
    std::vector<Tempering> fifths(11);
    for (std::size_t i = 0; i < 5; ++i) {
        fifths[i].plain = Cents(-20.0);
        fifths[i + 5].plain = Cents(15.0);
    }
    const auto made = Temperament::fromFifths(description, PitchClass{Letter::E, -1}, fifths);
    REQUIRE(made.hasValue());
    const auto refused = octaveTuningOneByte({*made, {}});
    REQUIRE_FALSE(refused.hasValue());
    CHECK(refused.error().text.find("C# is +67.8 cents") != std::string::npos);
    CHECK(refused.error().text.find("use the bulk dump") != std::string::npos);
    CHECK(octaveTuningTwoBytes({*made, {}}).hasValue());
    const auto split = findTemperament("meantone-quarter")
                           ->extended(*parsePitchClass("Ab"), *parsePitchClass("D#"));
    for (const auto& each : {octaveTuningOneByte({*split, {}}),
                             octaveTuningTwoBytes({*split, {}}),
                             bulkTuningDump({*split, {}})}) {
        REQUIRE_FALSE(each.hasValue());
        CHECK(each.error().text.find("14") != std::string::npos);
    }
}

TEST_CASE("a single note tuning change is the message of the standard", "[unit]") {
    // F0 7F id 08 02 tt ll (kk xx yy zz)×ll F7, as quoted on several pages.
    CHECK(hex(*singleNoteTuning(
              tuned("equal", 440.0), *parseNote("C4"), *parseNote("C#4"), {0x7F, 3})) ==
          "F0 7F 7F 08 02 03 02 3C 3C 00 00 3D 3D 00 00 F7");
    // A4 = 415 Hz lies 101.27 cents below 440: 67.98730 semitones, 43h and 16176 steps, 7E 30.
    CHECK(hex(*singleNoteTuning(tuned("equal", 415.0), *parseNote("A4"), *parseNote("A4"))) ==
          "F0 7F 7F 08 02 00 01 45 43 7E 30 F7");
    CHECK_FALSE(
        singleNoteTuning(tuned("equal", 415.0), *parseNote("C-1"), *parseNote("G9")).hasValue());
    CHECK_FALSE(
        singleNoteTuning(tuned("equal", 415.0), *parseNote("A4"), *parseNote("C4")).hasValue());
}

TEST_CASE("a bulk dump holds every key within half a step", "[unit]") {
    // F0 7E id 08 01 tt name×16 (xx yy zz)×128 checksum F7: 408 bytes, as quoted on several pages; the checksum, all
    // bytes from 7E on combined by exclusive or, is from memory.
    const TunedScale scale = tuned("kirnberger-3", 415.0);
    const auto dump = bulkTuningDump(scale, {0x00, 5});
    REQUIRE(dump.hasValue());
    REQUIRE(dump->size() == 408);
    CHECK(hex(SystemExclusive(dump->begin(), dump->begin() + 6)) == "F0 7E 00 08 01 05");
    CHECK(std::string(dump->begin() + 6, dump->begin() + 22) == "kirnberger-3    ");
    std::uint8_t checksum = 0;
    for (std::size_t i = 1; i + 2 < dump->size(); ++i) {
        checksum ^= (*dump)[i];
        CHECK((*dump)[i] < 0x80);
    }
    CHECK((*dump)[406] == checksum);
    CHECK(dump->back() == 0xF7);
    for (int midi = 12; midi < 128; ++midi) {
        const std::uint8_t* bytes = dump->data() + 22 + std::ptrdiff_t{3} * midi;
        const int place = midi % 12;
        static constexpr int kFifths[] = {0, 7, 2, -3, 4, -1, 6, 1, 8, 3, -2, 5};
        const Note note{pitchClassAtFifth(kFifths[place]), static_cast<std::int8_t>(midi / 12 - 1)};
        const double cents = 1200.0 * std::log2(hertzOf(bytes) / scale.pitchOf(note).value());
        CHECK(std::abs(cents) <= 50.0 / 16384.0 + 1e-9);
    }
    // At 415 Hz the lowest key lies under 8.1758 Hz, which the format cannot say: no change.
    CHECK(hex(SystemExclusive(dump->begin() + 22, dump->begin() + 25)) == "7F 7F 7F");
}
