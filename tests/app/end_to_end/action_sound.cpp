// Plays one register of the virtual instrument into a sound file, key after key, as a technician would before the
// microphone:
//     action_sound OUT.wav REGISTER FIRST_KEY LAST_KEY PLUCKS HELD_S APART_S SEED [KIND:CHOIR:COURSE:AMOUNT]...
// KIND: weak, late, hangs. Keys and courses count from 0.
#include "audio/sound_writer.hpp"
#include "core/instrument/examples.hpp"
#include "core/temperament/catalogue.hpp"
#include "core/temperament/temperament.hpp"
#include "core/virtual/virtual_instrument.hpp"

#include <cstdio>
#include <cstdlib>
#include <optional>
#include <string>
#include <vector>

using namespace quillbench;
using namespace quillbench::literals;

namespace {

constexpr double kActionRate = 48000.0;
constexpr double kBegins = 1.0;

std::optional<StringFault> faultFrom(const std::string& text) {
    StringFault fault;
    char kind[16] = {};
    if (std::sscanf(text.c_str(),
                    "%15[a-z]:%zu:%zu:%lf",
                    kind,
                    &fault.string.choir,
                    &fault.string.course,
                    &fault.amount) != 4) {
        std::fprintf(stderr, "'%s' is no fault: write KIND:CHOIR:COURSE:AMOUNT\n", text.c_str());
        return std::nullopt;
    }
    const std::string name = kind;
    fault.kind = name == "weak"   ? StringFault::Kind::WeakPlectrum
                 : name == "late" ? StringFault::Kind::LateDamper
                                  : StringFault::Kind::HangingJack;
    return fault;
}

VirtualCommand keyAt(VirtualCommand::Kind kind, std::size_t key, double at) {
    VirtualCommand command;
    command.kind = kind;
    command.key = key;
    command.at = FrameIndex(static_cast<std::int64_t>(at * kActionRate));
    return command;
}

std::vector<std::vector<Hertz>> tunedStrings(const Instrument& instrument) {
    const TunedScale scale{*findTemperament("vallotti"), {Hertz(415.0), {{Letter::A, 0}, 4}}};
    std::vector<std::vector<Hertz>> pitches;
    for (std::size_t choir = 0; choir < instrument.choirs.size(); ++choir) {
        std::vector<Hertz> strings;
        for (std::size_t course = 0; course < instrument.choirs[choir].strings.size(); ++course) {
            strings.push_back(targetPitch(instrument, {choir, course}, [&scale](const Note& note) {
                return scale.pitchOf(note);
            }));
        }
        pitches.push_back(std::move(strings));
    }
    return pitches;
}

} // namespace

int main(int count, char** words) {
    if (count < 9) {
        std::fprintf(stderr,
                     "action_sound OUT REGISTER FIRST LAST PLUCKS HELD APART SEED FAULT...\n");
        return 2;
    }
    const Instrument& instrument = *findExample("double-8-8-4");
    VirtualSettings settings;
    settings.sampleRate = SampleRate(kActionRate);
    settings.seed = std::strtoull(words[8], nullptr, 10);
    settings.pitches = tunedStrings(instrument);
    settings.room.noise = -78.0_dB;
    settings.registersOn.assign(instrument.registers.size(), false);
    settings.registersOn[std::strtoull(words[2], nullptr, 10)] = true;
    for (int i = 9; i < count; ++i) {
        const std::optional<StringFault> fault = faultFrom(words[i]);
        if (!fault) {
            return 2;
        }
        settings.faults.push_back(*fault);
    }
    const auto first = std::strtoull(words[3], nullptr, 10);
    const auto last = std::strtoull(words[4], nullptr, 10);
    const int plucks = std::atoi(words[5]);
    const double held = std::atof(words[6]);
    const double apart = std::atof(words[7]);
    VirtualInstrument made(instrument, settings);
    double at = kBegins;
    for (int round = 0; round < plucks; ++round) {
        for (std::size_t key = first; key <= last; ++key) {
            made.apply(keyAt(VirtualCommand::Kind::KeyDown, key, at));
            made.apply(keyAt(VirtualCommand::Kind::KeyUp, key, at + held));
            at += apart;
        }
    }
    Sound sound{SampleRate(kActionRate), {}};
    sound.samples.resize(static_cast<std::size_t>((at + 3.0) * kActionRate));
    made.render(sound.samples);
    if (const auto written = writeSound(words[1], sound); !written) {
        std::fprintf(stderr, "%s\n", written.error().text.c_str());
        return 3;
    }
    return 0;
}
