#include "app/formats/temperament_file.hpp"
#include "app/formats/tuning_standard.hpp"
#include "core/support/contract.hpp"
#include "core/temperament/catalogue.hpp"
#include "tests/fuzz/complaint.hpp"
#include "tests/fuzz/splice.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <cstring>
#include <string>

using namespace quillbench;

namespace {

/// F0 … F7 with nothing between that is no data byte: an instrument that hears anything else may do anything.
void expectMessage(const Result<SystemExclusive>& message) {
    if (!test::heldOrComplained(message)) {
        return;
    }
    EXPECTS(message->size() >= 4 && message->front() == 0xF0 && message->back() == 0xF7);
    EXPECTS(std::all_of(
        message->begin() + 1, message->end() - 1, [](std::uint8_t byte) { return byte < 0x80; }));
}

void expectMessages(const TunedScale& scale, const std::uint8_t* data, std::size_t size) {
    const auto byte = [&](std::size_t at) { return at < size ? data[at] : std::uint8_t{0}; };
    const MidiTarget target{static_cast<std::uint8_t>(byte(0) % 128),
                            static_cast<std::uint8_t>(byte(1) % 128)};
    expectMessage(octaveTuningOneByte(scale, target));
    expectMessage(octaveTuningTwoBytes(scale, target));
    expectMessage(bulkTuningDump(scale, target));
    const Note lowest{PitchClass{Letter::C, 0}, static_cast<std::int8_t>(byte(2) % 5)};
    const Note highest{PitchClass{Letter::B, 0}, static_cast<std::int8_t>(4 + byte(3) % 5)};
    expectMessage(singleNoteTuning(scale, lowest, highest, target));
}

} // namespace

/// Messages of the MIDI Tuning Standard from any temperament file and pitch.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    static const std::string kGood = formatTemperament({*findTemperament("werckmeister-6"), ""});
    for (const std::string& text : test::rawAndSpliced(kGood, data, size)) {
        const auto file = parseTemperament(text);
        TunedScale scale{*findTemperament("equal"), {}};
        if (test::heldOrComplained(file)) {
            scale.temperament = file->temperament;
        }
        constexpr double kLowest = 300.0; // Hz; the highest is 300 more
        scale.reference.hz = Hertz(kLowest + (size > 4 ? data[4] * 300.0 / 255.0 : 0.0));
        expectMessages(scale, data, size);
    }
    for (std::size_t i = 0; i + 8 <= size; i += 8) {
        std::uint64_t bits = 0;
        std::memcpy(&bits, data + i, sizeof bits);
        // Any size of number between 1e-300 and 1e300, the format's range among them.
        const double hz = std::pow(10.0, static_cast<double>(bits % 600000) / 1000.0 - 300.0);
        if (const auto key = frequencyData(Hertz(hz))) {
            EXPECTS(key->semitone < 0x80 && key->high < 0x80 && key->low < 0x80);
        }
    }
    return 0;
}
