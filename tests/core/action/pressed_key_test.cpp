#include "core/action/pressed_key.hpp"
#include "tests/core/virtual/playing.hpp"

#include <catch2/catch.hpp>

#include <string>
#include <vector>

using namespace quillbench;
using namespace quillbench::test;

namespace {

constexpr double kPressRate = 32000.0;
constexpr double kDown = 0.5;

const Instrument& pressedInstrument() {
    return exampleInstruments().front();
}

/// A key that goes down slowly, the one before it still lingering.
std::vector<float>
pressed(std::size_t key, const std::vector<bool>& registers, std::uint64_t seed) {
    VirtualSettings settings = quiet(pressedInstrument(), seed);
    settings.sampleRate = SampleRate(kPressRate);
    settings.actionNoise = true;
    settings.registersOn = registers;
    settings.room.noise = Decibel::fromAmplitude(1e-4);
    VirtualInstrument sounding(pressedInstrument(), settings);
    const auto at = [](double seconds) { return static_cast<std::int64_t>(seconds * kPressRate); };
    const std::size_t other = key == 0 ? 5 : key - 1;
    for (const VirtualCommand& command :
         {command(VirtualCommand::Kind::Couple, 0),
          onKey(VirtualCommand::Kind::KeyDown, 1, other),
          onKey(VirtualCommand::Kind::KeyUp, at(0.15), other),
          onKey(VirtualCommand::Kind::KeyDown, at(kDown), key, 0.1)}) {
        REQUIRE(sounding.apply(command));
    }
    return rendered(sounding, static_cast<std::size_t>(at(kDown + 0.6)));
}

std::vector<KeySound> everyKey(std::size_t choir) {
    std::vector<KeySound> keys;
    const std::size_t count = pressedInstrument().compass.keys.size();
    keys.reserve(count);
    for (std::size_t key = 0; key < count; ++key) {
        keys.push_back({key, nominalPitch(pressedInstrument(), {choir, key}), 3e-5});
    }
    return keys;
}

} // namespace

TEST_CASE("every key is told by what rose, whatever registers are on", "[action]") {
    const std::vector<bool> registers = GENERATE(std::vector<bool>{true, true, true},
                                                 std::vector<bool>{true, false, true},
                                                 std::vector<bool>{false, false, true});
    const std::vector<KeySound> keys = everyKey(registers[0] ? 0 : 2);
    std::string wrong;
    for (std::size_t key = 0; key < keys.size(); ++key) {
        const auto told = pressedKey(pressed(key, registers, 11 + key),
                                     SampleRate(kPressRate),
                                     Seconds(kDown),
                                     Seconds(kDown + 0.3),
                                     keys);
        if (told != key) {
            wrong += std::to_string(key) + " taken for " +
                     (told ? std::to_string(*told) : std::string("none")) + ", ";
        }
    }
    INFO(wrong);
    CHECK(wrong.empty());
}

TEST_CASE("silence, and a sound that is too short, come from no key", "[action]") {
    const std::vector<KeySound> keys = everyKey(0);
    const std::vector<float> silence(32000, 0.0F);
    CHECK_FALSE(pressedKey(silence, SampleRate(kPressRate), Seconds(0.3), Seconds(0.6), keys));
    CHECK_FALSE(pressedKey(
        std::span(silence).first(15000), SampleRate(kPressRate), Seconds(0.3), Seconds(0.3), keys));
}
