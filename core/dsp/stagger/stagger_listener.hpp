#pragma once

#include "core/dsp/stagger/pluck_hypothesis.hpp"
#include "core/support/fixed_vector.hpp"
#include "core/units/decibel.hpp"
#include "core/units/frames.hpp"
#include "core/units/hertz.hpp"

#include <optional>
#include <span>

namespace quillbench {

/// A recording of one register alone: one pluck of the same key, at the same gain.
struct SoloSound {
    std::span<const float> samples;
    SampleRate rate;
};

/// A register that is on.
struct StaggeredChoir {
    double ratio = 1.0; ///< pitch against the 8′ of the key: 1, 2 for a 4′, 0.5 for a 16′
    std::optional<SoloSound> solo;
};

/// Which key goes down, with which registers on.
struct StaggerQuestion {
    Hertz key; ///< 8′ pitch, 15 to 4 000 Hz
    FixedVector<StaggeredChoir, kMostChoirsOfKey> choirs;
};

struct ChoirPluck {
    Seconds at{0};
    Seconds uncertainty{0};  ///< one standard deviation
    std::size_t choir = 0;   ///< of the question's
    double confidence = 0.0; ///< that this choir plucked here, 0 to 1
    Decibel level;           ///< of the plucked string alone over its first 250 ms
};

/// The plucks of one key in order of time.
struct StaggerReading {
    FixedVector<ChoirPluck, kMostChoirsOfKey> plucks; ///< empty: nothing was plucked
    bool weak = false;                                ///< count or order are in doubt
    double countConfidence = 0;                       ///< that there were so many plucks, 0 to 1
};

/// Hears which registers plucked and when: each at most once. With a solo of every choir the whole is one
/// joint decision; without, times and the likelier choir of each.
/// **Range** at least one choir. **Accuracy** tests/accuracy, set `plucks`.
/// **Source** DEVELOPERS.md, "From samples to plucks".
[[nodiscard]] StaggerReading
listenToStagger(std::span<const float> samples, SampleRate rate, const StaggerQuestion& question);

} // namespace quillbench
