#pragma once

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

} // namespace quillbench::test
