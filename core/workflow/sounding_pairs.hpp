#pragma once

#include "core/instrument/instrument.hpp"
#include "core/pitch/interval.hpp"
#include "core/workflow/minutes.hpp"

#include <vector>

namespace quillbench {

/// Two strings that sound together in what is played.
struct SoundingPair {
    StringId lower;
    StringId upper;
    IntervalKind interval = IntervalKind::Unison;
    double weight = 1.0;       ///< how much it is listened to
    double beatsPerCent = 0.0; ///< at their lowest pair of partials
};

/// Those of a programme: choirs at one key, and octaves, fifths, fourths and thirds of its keys within each choir.
/// Weights are common practice, no source: a unison or octave that beats is heard first.
[[nodiscard]] std::vector<SoundingPair> soundingPairs(const Instrument& instrument,
                                                      const FactsOfString& factsOf,
                                                      const Programme& programme);

} // namespace quillbench
