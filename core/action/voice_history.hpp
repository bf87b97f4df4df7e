#pragma once

#include "core/action/evenness.hpp"

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace quillbench {

/// One key of a register as it stood in one sitting.
struct KeptVoice {
    std::size_t key = 0;
    double level = 0.0;      ///< dB (A); depends on the microphone
    double brightness = 0.0; ///< octaves
    double sustain = 0.0;    ///< 10·log10 of seconds
    double strength = 0.0;   ///< dB against its neighbours
    double strengthU = 0.0;
    std::optional<double> displacement; ///< dB; independent of the microphone
};

/// A register played through once.
struct KeptPass {
    double day = 0.0; ///< days since any fixed day
    std::vector<KeptVoice> keys;
};

/// The pass of a report, for keeping. Keys of which loudness, brightness, sustain or strength was not heard are left
/// out.
[[nodiscard]] KeptPass passOf(const EvennessReport& report, double day);

/// A difference with its standard uncertainty.
struct PassDifference {
    double amount = 0.0;
    double uncertainty = 0.0;
    std::size_t keys = 0; ///< it rests on; 0: nothing can be said
};

struct KeyChange {
    std::size_t key = 0;
    double amount = 0.0; ///< dB in strength against its neighbours
    double uncertainty = 0.0;
};

/// The second pass against the first, over the keys of both: medians of the differences, key by key.
struct PassComparison {
    PassDifference level;
    PassDifference brightness;
    PassDifference sustain;
    PassDifference displacement;
    std::vector<KeyChange>
        changed; ///< keys that left their neighbours by more than a neighbour may; largest first
};

/// Two registers of one sitting (the microphone in one place), or one register then and now; then `level` tells the
/// microphone as well.
[[nodiscard]] PassComparison comparePasses(const KeptPass& first, const KeptPass& second);

/// What the plectra of one register lose.
struct WearOutlook {
    /// At least three passes over at least sixty days, displacement heard on ten keys of each.
    bool known = false;
    double perYear = 0.0; ///< dB of displacement a year; negative: they lose
    double lowest = 0.0;  ///< of `perYear`, 95 % interval
    double highest = 0.0;
    /// Days from the last pass until the displacement is 3 dB below that of the first, earliest and latest; only where
    /// the loss is sure, `latestDays` only where it has an end.
    std::optional<double> soonestDays;
    std::optional<double> latestDays;
};

/// The trend of the displacement over all passes, in order of time: straight line, Student's interval.
/// **Accuracy** voice_history_test: the truth lies in the interval in about 95 %. **Source** 3 dB: common practice, no
/// source; the displacement does not depend on the microphone [Legge1984].
[[nodiscard]] WearOutlook wearOf(std::span<const KeptPass> passes);

} // namespace quillbench
