// Plays registers of the virtual instrument into a sound file, key after key, as a technician would before the
// microphone:
//     action_sound OUT.wav [NAME=VALUE]... [KIND:CHOIR:COURSE:AMOUNT]...
// NAME: registers (0,2), first and last key, plucks, held and apart in seconds, speed of the key in (0, 1], seed; pause:
// all plucks of a key in a row, then so many seconds of silence; without it every key once, then every key again.
// spot=KEY: where the microphone stands, the room swallows the partials of that key.
// KIND: weak, late, early, partial, hangs, stray. Keys, registers and courses count from 0.
#include "audio/sound_writer.hpp"
#include "core/instrument/examples.hpp"
#include "core/temperament/catalogue.hpp"
#include "core/temperament/temperament.hpp"
#include "core/virtual/virtual_instrument.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <map>
#include <numbers>
#include <optional>
#include <span>
#include <sstream>
#include <string>
#include <utility>
#include <vector>

using namespace quillbench;
using namespace quillbench::literals;

namespace {

constexpr double kActionRate = 48000.0;
constexpr double kBegins = 0.5;
constexpr double kEnds = 4.0;

/// What is played.
struct Touch {
    std::vector<std::size_t> registers;
    std::size_t first = 0;
    std::size_t last = 0;
    int plucks = 2;
    double held = 0.5;
    double apart = 1.0;
    double speed = 0.0; ///< 0: ordinary
    double pause = 0.0;
    std::uint64_t seed = 1;
    std::optional<std::size_t> spot;
    std::vector<StringFault> faults;
};

std::optional<StringFault> faultFrom(const std::string& text) {
    StringFault fault;
    char kind[16] = {};
    if (std::sscanf(text.c_str(),
                    "%15[a-z]:%zu:%zu:%lf",
                    kind,
                    &fault.string.choir,
                    &fault.string.course,
                    &fault.amount) != 4) {
        return std::nullopt;
    }
    const std::string name = kind;
    const std::map<std::string, StringFault::Kind> kinds{
        {"weak", StringFault::Kind::WeakPlectrum},
        {"late", StringFault::Kind::LateDamper},
        {"early", StringFault::Kind::EarlyDamper},
        {"partial", StringFault::Kind::PartialDamper},
        {"stray", StringFault::Kind::StrayJack},
        {"hangs", StringFault::Kind::HangingJack}};
    const auto found = kinds.find(name);
    if (found == kinds.end()) {
        return std::nullopt;
    }
    fault.kind = found->second;
    return fault;
}

std::vector<std::size_t> numbersIn(const std::string& text) {
    std::vector<std::size_t> numbers;
    std::istringstream parts(text);
    for (std::string part; std::getline(parts, part, ',');) {
        numbers.push_back(std::strtoull(part.c_str(), nullptr, 10));
    }
    return numbers;
}

/// Takes one word of the command line; false where it is none.
bool take(Touch& touch, const std::string& word) {
    const std::size_t sign = word.find('=');
    if (sign == std::string::npos) {
        const std::optional<StringFault> fault = faultFrom(word);
        if (fault) {
            touch.faults.push_back(*fault);
        }
        return fault.has_value();
    }
    const std::string name = word.substr(0, sign);
    const std::string value = word.substr(sign + 1);
    const double number = std::atof(value.c_str());
    const std::map<std::string, double*> reals{{"held", &touch.held},
                                               {"apart", &touch.apart},
                                               {"speed", &touch.speed},
                                               {"pause", &touch.pause}};
    if (const auto real = reals.find(name); real != reals.end()) {
        *real->second = number;
    } else if (name == "registers") {
        touch.registers = numbersIn(value);
    } else if (name == "first") {
        touch.first = static_cast<std::size_t>(number);
    } else if (name == "last") {
        touch.last = static_cast<std::size_t>(number);
    } else if (name == "plucks") {
        touch.plucks = static_cast<int>(number);
    } else if (name == "spot") {
        touch.spot = static_cast<std::size_t>(number);
    } else if (name == "seed") {
        touch.seed = std::strtoull(value.c_str(), nullptr, 10);
    } else {
        return false;
    }
    return true;
}

VirtualCommand keyAt(VirtualCommand::Kind kind, std::size_t key, double at, double speed = 0.0) {
    VirtualCommand command;
    command.amount = speed;
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

void renderUpTo(VirtualInstrument& made, Sound& sound, double seconds) {
    const std::size_t before = sound.samples.size();
    const auto wanted = static_cast<std::size_t>(seconds * kActionRate);
    sound.samples.resize(std::max(before, wanted));
    made.render(std::span(sound.samples).subspan(before));
}

VirtualSettings settingsOf(const Instrument& instrument, const Touch& touch) {
    VirtualSettings settings;
    settings.sampleRate = SampleRate(kActionRate);
    settings.seed = touch.seed;
    settings.pitches = tunedStrings(instrument);
    settings.room.noise = -78.0_dB;
    settings.faults = touch.faults;
    settings.registersOn.assign(instrument.registers.size(), false);
    for (const std::size_t reg : touch.registers) {
        settings.registersOn.at(reg) = true;
    }
    return settings;
}

/// Takes a band of a semitone or so out of the sound, 14 dB at its middle: a peaking filter, as in every textbook.
void swallow(std::vector<float>& samples, double hz) {
    const double amplitude = std::pow(10.0, -14.0 / 40.0);
    const double angle = 2.0 * std::numbers::pi * hz / kActionRate;
    const double width = std::sin(angle) / (2.0 * 20.0);
    const double a0 = 1.0 + width / amplitude;
    const double b0 = (1.0 + width * amplitude) / a0;
    const double b2 = (1.0 - width * amplitude) / a0;
    const double middle = -2.0 * std::cos(angle) / a0;
    const double a2 = (1.0 - width / amplitude) / a0;
    double x1 = 0.0;
    double x2 = 0.0;
    double y1 = 0.0;
    double y2 = 0.0;
    for (float& sample : samples) {
        const auto x = static_cast<double>(sample);
        const double y = b0 * x + middle * x1 + b2 * x2 - middle * y1 - a2 * y2;
        x2 = std::exchange(x1, x);
        y2 = std::exchange(y1, y);
        sample = static_cast<float>(y);
    }
}

/// The keys in the order in which they are struck, and how long after the one before.
std::vector<std::pair<std::size_t, double>> strokesOf(const Touch& touch) {
    std::vector<std::pair<std::size_t, double>> strokes;
    const std::size_t keys = touch.last + 1 - touch.first;
    strokes.reserve(keys * static_cast<std::size_t>(touch.plucks));
    const bool inARow = touch.pause > 0.0;
    const auto plucks = static_cast<std::size_t>(touch.plucks);
    for (std::size_t i = 0; i < keys * plucks; ++i) {
        const std::size_t key = touch.first + (inARow ? i / plucks : i % keys);
        const bool pauses = inARow && i > 0 && i % plucks == 0;
        strokes.emplace_back(key, pauses ? touch.pause : touch.apart);
    }
    return strokes;
}

} // namespace

int main(int count, char** words) {
    Touch touch;
    bool good = count >= 3;
    for (int i = 2; i < count; ++i) {
        if (!take(touch, words[i])) {
            std::fprintf(
                stderr, "'%s' is neither NAME=VALUE nor KIND:CHOIR:COURSE:AMOUNT\n", words[i]);
            good = false;
        }
    }
    if (!good || touch.registers.empty() || touch.last < touch.first || touch.plucks < 1) {
        std::fprintf(stderr, "action_sound OUT.wav [NAME=VALUE]... [FAULT]...: see its source\n");
        return 2;
    }
    const Instrument& instrument = *findExample("double-8-8-4");
    VirtualInstrument made(instrument, settingsOf(instrument, touch));
    VirtualCommand couple;
    couple.kind = VirtualCommand::Kind::Couple;
    made.apply(couple);
    Sound sound{SampleRate(kActionRate), {}};
    double at = kBegins;
    // No more than a few strokes wait at once: the queue of commands has an end.
    for (const auto& [key, apart] : strokesOf(touch)) {
        at += apart;
        made.apply(keyAt(VirtualCommand::Kind::KeyDown, key, at, touch.speed));
        made.apply(keyAt(VirtualCommand::Kind::KeyUp, key, at + touch.held));
        renderUpTo(made, sound, at);
    }
    renderUpTo(made, sound, at + kEnds);
    for (int n = 1; touch.spot && n <= 10; ++n) {
        swallow(sound.samples, n * tunedStrings(instrument)[0].at(*touch.spot).value());
    }
    if (const auto written = writeSound(words[1], sound); !written) {
        std::fprintf(stderr, "%s\n", written.error().text.c_str());
        return 3;
    }
    return 0;
}
