#pragma once

#include "core/units/frames.hpp"
#include "core/units/hertz.hpp"

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace quillbench {

/// One pluck of a key that is played over and over.
struct RepeatedPluck {
    Seconds at{0.0};
    double rise = 0.0;  ///< dB of the string's partials above what was left of the last pluck
    double level = 0.0; ///< dB re full scale of the string just after it
};

/// How a key repeats.
struct RepetitionReading {
    std::vector<RepeatedPluck> plucks; ///< in order of time
    int asked = 10;                    ///< times the key was to be struck
    int missed = 0;                    ///< strokes that plucked nothing; 0 or more
    std::optional<double>
        weakestDb;          ///< the weakest against the median of the plucks; from three plucks on
    double usualRate = 0.0; ///< strokes a second, median; 0 below three plucks
    /// Strokes a second where the first is missing: the time between the plucks around it, divided.
    std::optional<double> missesFrom;
    bool hangs = false; ///< it plucked at the beginning and then no more: a jack that stays up
};

/// Finds the plucks of one string in the sound of a key struck `asked` times: its partials together jump up each time.
/// **Range** string 15 to 4 000 Hz; asked 2 to 40. **Accuracy** repetition_test: on the virtual instrument, 2 to 9
/// strokes a second.
[[nodiscard]] RepetitionReading
hearRepetition(std::span<const float> samples, SampleRate rate, Hertz string, int asked = 10);

} // namespace quillbench
