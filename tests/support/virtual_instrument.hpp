#pragma once

#include "core/analysis/target.hpp"
#include "core/instrument/examples.hpp"
#include "core/virtual/virtual_instrument.hpp"

#include <memory>
#include <vector>

namespace quillbench::test {

/// The first built-in example with its strings at their nominal pitches, in a silent room.
[[nodiscard]] inline std::unique_ptr<VirtualInstrument>
nominalVirtualInstrument(SampleRate rate,
                         const Instrument& instrument = exampleInstruments().front()) {
    VirtualSettings settings;
    settings.sampleRate = rate;
    for (std::size_t c = 0; c < instrument.choirs.size(); ++c) {
        std::vector<Hertz> pitches;
        for (std::size_t s = 0; s < instrument.choirs[c].strings.size(); ++s) {
            pitches.push_back(nominalPitch(instrument, {c, s}));
        }
        settings.pitches.push_back(pitches);
    }
    return std::make_unique<VirtualInstrument>(instrument, settings);
}

/// The same with only its first register on.
[[nodiscard]] inline std::unique_ptr<VirtualInstrument> oneChoirAlone(SampleRate rate) {
    auto made = nominalVirtualInstrument(rate);
    for (std::size_t reg = 1; reg < exampleInstruments().front().registers.size(); ++reg) {
        VirtualCommand off;
        off.kind = VirtualCommand::Kind::RegisterOff;
        off.reg = reg;
        (void)made->apply(off);
    }
    return made;
}

/// An octave of the strings that sound then, from course 15 on.
[[nodiscard]] inline std::shared_ptr<const AnalysisTarget> targetOfOneOctave() {
    const Instrument& instrument = exampleInstruments().front();
    const std::size_t choir = instrument.registers.front().choir;
    auto target = std::make_shared<AnalysisTarget>();
    for (std::size_t course = 15; course < 28; ++course) {
        target->strings.push_back(
            {{choir, course}, nominalPitch(instrument, {choir, course}), 0.0});
    }
    return target;
}

} // namespace quillbench::test
