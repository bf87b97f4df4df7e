#include "core/instrument/examples.hpp"
#include "core/virtual/virtual_instrument.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <vector>

using namespace quillbench;

namespace {

/// The settings of an instrument in equal temperament at its own standard, without room sound.
VirtualSettings quiet(const Instrument& instrument) {
    VirtualSettings settings;
    for (std::size_t c = 0; c < instrument.choirs.size(); ++c) {
        std::vector<Hertz> pitches;
        for (std::size_t s = 0; s < instrument.choirs[c].strings.size(); ++s) {
            pitches.push_back(nominalPitch(instrument, {c, s}));
        }
        settings.pitches.push_back(pitches);
    }
    return settings;
}

VirtualCommand command(VirtualCommand::Kind kind, std::int64_t frame) {
    VirtualCommand result;
    result.kind = kind;
    result.at = FrameIndex(frame);
    return result;
}

VirtualCommand key(VirtualCommand::Kind kind, std::int64_t frame, std::size_t number) {
    VirtualCommand result = command(kind, frame);
    result.key = number;
    return result;
}

std::vector<float> rendered(VirtualInstrument& instrument,
                            std::size_t frames,
                            const std::vector<std::size_t>& blocks) {
    std::vector<float> sound(frames);
    std::size_t done = 0;
    for (std::size_t i = 0; done < frames; ++i) {
        const std::size_t count = std::min(blocks[i % blocks.size()], frames - done);
        instrument.render(std::span(sound).subspan(done, count));
        done += count;
    }
    return sound;
}

std::size_t firstDifference(const std::vector<float>& a, const std::vector<float>& b) {
    return static_cast<std::size_t>(std::mismatch(a.begin(), a.end(), b.begin(), b.end()).first -
                                    a.begin());
}

} // namespace

TEST_CASE("the same commands give the same samples in blocks of any size", "[unit]") {
    const Instrument& made = exampleInstruments().front();
    VirtualSettings settings = quiet(made);
    settings.room.noise = Decibel::fromAmplitude(1e-3);
    settings.room.hum = Decibel::fromAmplitude(1e-3);
    settings.room.kelvinPerHour = 4.0;
    settings.pins = {1.0, 0.5, 0.2};
    settings.seed = 7;
    std::vector<VirtualCommand> commands;
    commands.push_back(key(VirtualCommand::Kind::KeyDown, 100, 20));
    commands.push_back(key(VirtualCommand::Kind::KeyDown, 101, 24));
    commands.push_back(key(VirtualCommand::Kind::KeyUp, 6011, 20));
    commands.push_back(key(VirtualCommand::Kind::KeyDown, 9000, 20));
    commands.push_back(command(VirtualCommand::Kind::TurnPin, 9500));
    commands.back().string = {0, 24};
    commands.back().amount = 0.7;
    commands.push_back(command(VirtualCommand::Kind::PluckString, 12000));
    commands.back().string = {1, 12};
    commands.push_back(command(VirtualCommand::Kind::DampAll, 17123));

    VirtualInstrument whole(made, settings);
    for (const auto& c : commands) {
        whole.apply(c);
    }
    const std::vector<float> expected = rendered(whole, 24000, {24000});

    VirtualInstrument pieces(made, settings);
    for (auto c = commands.rbegin(); c != commands.rend(); ++c) {
        pieces.apply(*c);
    }
    CHECK(firstDifference(rendered(pieces, 24000, {1, 63, 64, 65, 7, 480, 1024}), expected) ==
          24000);

    // Commands may also come late, just before their frame.
    VirtualInstrument live(made, settings);
    std::vector<float> sound(24000);
    std::size_t next = 0;
    for (std::size_t done = 0; done < sound.size(); done += 250) {
        while (next < commands.size() &&
               commands[next].at.value() < static_cast<std::int64_t>(done + 250)) {
            live.apply(commands[next++]);
        }
        live.render(std::span(sound).subspan(done, 250));
    }
    CHECK(firstDifference(sound, expected) == 24000);

    settings.seed = 8;
    VirtualInstrument other(made, settings);
    for (const auto& c : commands) {
        other.apply(c);
    }
    CHECK(firstDifference(rendered(other, 24000, {24000}), expected) < 24000);
}

TEST_CASE("silence until something is plucked", "[unit]") {
    const Instrument& made = exampleInstruments().front();
    VirtualInstrument instrument(made, quiet(made));
    const std::vector<float> sound = rendered(instrument, 4800, {4800});
    CHECK(std::all_of(sound.begin(), sound.end(), [](float x) { return !(std::abs(x) > 0.0F); }));
    CHECK_FALSE(instrument.takePluck().has_value());
}
