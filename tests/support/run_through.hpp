#pragma once

#include "core/analysis/analyser.hpp"
#include "core/instrument/instrument.hpp"
#include "core/instrument/string.hpp"
#include "core/support/random.hpp"
#include "core/virtual/virtual_instrument.hpp"

#include <cmath>
#include <cstddef>
#include <vector>

/// A run through an instrument, key by key, as an owner does before tuning: played by the virtual instrument,
/// listened to by the analyser.
namespace quillbench::trials {

struct RunThrough {
    int keys = 0;
    int plucks = 0; ///< that the analyser counted
    int right = 0;
    int wrong = 0;
    int unknown = 0;
    int readings = 0;      ///< finished with a pitch
    double worstCents = 0; ///< of readings with standing Ok, against the rest pitch
};

/// One register on, every `stride`-th key held 0.45 s, the next 0.1 s after it is let go; strings up to ±40 cents
/// off.
inline RunThrough runThrough(const Instrument& instrument,
                             std::size_t choir,
                             std::size_t stride,
                             std::uint64_t seed) {
    const SampleRate rate(48000.0);
    Random random(seed);
    VirtualSettings settings;
    settings.seed = seed;
    settings.sampleRate = rate;
    settings.room.noise = Decibel::fromAmplitude(2e-4);
    settings.room.hum = Decibel::fromAmplitude(3e-4);
    auto target = std::make_shared<AnalysisTarget>();
    for (std::size_t c = 0; c < instrument.choirs.size(); ++c) {
        std::vector<Hertz> pitches;
        for (std::size_t s = 0; s < instrument.choirs[c].strings.size(); ++s) {
            const Hertz nominal = nominalPitch(instrument, {c, s});
            pitches.push_back(transpose(nominal, Cents(random.uniform(-40.0, 40.0))));
            if (c == choir) {
                target->strings.push_back({{c, s}, nominal, 0.0});
            }
        }
        settings.pitches.push_back(pitches);
    }
    const auto solo = soloRegister(instrument, choir);
    for (std::size_t r = 0; r < instrument.registers.size(); ++r) {
        settings.registersOn.push_back(solo == r);
    }
    VirtualInstrument virtualInstrument(instrument, settings);
    Analyser analyser(rate, {});
    analyser.setTarget(target);
    RunThrough result;
    std::vector<std::size_t> played;
    std::int64_t at = 24000;
    for (std::size_t key = 0; key < instrument.compass.keys.size(); key += stride) {
        VirtualCommand command;
        command.key = key;
        command.manual = instrument.registers[solo.value_or(0)].manual;
        command.at = FrameIndex(at);
        virtualInstrument.apply(command);
        command.kind = VirtualCommand::Kind::KeyUp;
        command.at = FrameIndex(at + 21600);
        virtualInstrument.apply(command);
        at += 26400;
        played.push_back(key);
    }
    result.keys = static_cast<int>(played.size());
    std::vector<float> block(256);
    std::vector<StringReading> finished;
    std::uint64_t counted = 0;
    for (std::int64_t frame = 0; frame < at + 130000; frame += 256) {
        virtualInstrument.render(block);
        const auto shot = analyser.push({FrameIndex(frame), block, false});
        if (shot) {
            counted = shot->pluckNumber;
            if (shot->finished) {
                finished.push_back(*shot->finished);
            }
        }
    }
    result.plucks = static_cast<int>(counted);
    // Each key is asked for its own pluck: the one that began within its 0.55 s.
    for (std::size_t i = 0; i < played.size(); ++i) {
        const FrameIndex from(24000 + static_cast<std::int64_t>(i) * 26400);
        const StringReading* own = nullptr;
        for (const StringReading& reading : finished) {
            if (reading.pluck >= from && reading.pluck < from + FrameCount(12000)) {
                own = &reading;
            }
        }
        if (own == nullptr || !(own->target.value() > 0.0)) {
            ++result.unknown;
        } else if (own->string != StringId{choir, played[i]}) {
            ++result.wrong;
        } else {
            ++result.right;
            if (own->standing == Standing::Ok) {
                ++result.readings;
                const Hertz rest = virtualInstrument.restPitch(own->string);
                result.worstCents =
                    std::max(result.worstCents, std::abs(interval(rest, own->pitch).value()));
            }
        }
    }
    return result;
}

} // namespace quillbench::trials
