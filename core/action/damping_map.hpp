#pragma once

#include "core/dsp/damper/release_fit.hpp"

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace quillbench {

/// A key of one register, played short and let go.
struct DampedPluck {
    std::size_t key = 0;
    double heldSeconds = 0.0;          ///< from the pluck until the damper takes hold
    bool found = false;                ///< a damper was heard at all
    double stopSeconds = 0.0;          ///< from there until 40 dB down
    std::optional<double> lingeringDb; ///< ReleaseReading::lingeringDb
    std::optional<double> fall;        ///< as fallWhileHeld says it
};

/// How fast the string falls while its key is still down, dB a second, from `pluck` to `release`: least squares over its
/// partials' level from 0.05 s to the release, at least to 0.22 and at most to 0.6 s after the pluck. Nothing where less
/// than 0.12 s of that are there.
/// **Range** string 15 to 4 000 Hz.
[[nodiscard]] std::optional<double> fallWhileHeld(
    std::span<const float> samples, SampleRate rate, Hertz string, Seconds pluck, Seconds release);

/// As a release says it; `pluck` on the same scale of seconds.
[[nodiscard]] DampedPluck dampedPluck(std::size_t key, double pluck, const ReleaseReading& release);

struct DampingKey {
    std::size_t key = 0;
    int count = 0;
    int undamped = 0;          ///< plucks that no damper ended
    double stopSeconds = 0.0;  ///< median
    double usualSeconds = 0.0; ///< what the keys around it lead one to expect
    double heldSeconds = 0.0;
    double usualHeld = 0.0;
    std::optional<double> fall; ///< median
    double usualFall = 0.0;
    std::optional<double> lingeringDb; ///< median
};

enum class DampingFault {
    NotAtAll, ///< rings on after the key is let go
    Slow,     ///< the string goes on too long after the damper touched: it grips badly
    Partial,  ///< something of the string sounds on under the damper
    Late,     ///< the damper takes hold later than its neighbours after the same short touch
    Early,    ///< the string dies away while the key is still down: the damper touches it in play
};

struct DampingFinding {
    std::size_t key = 0;
    DampingFault fault = DampingFault::NotAtAll;
    double amount =
        0.0; ///< Slow, Late: seconds beyond the usual; Partial: dB above it; Early: dB a second beyond it
    double confidence = 0.0; ///< 0 to 1
};

struct DampingMap {
    std::vector<DampingKey> keys; ///< ascending
    std::vector<DampingFinding> findings;
    bool enough = false;
};

/// How one register's dampers stop its strings, key by key, against a robust curve over the compass. A finding needs
/// two plucks of the key. "Late" rests on an even touch: keys struck short, all alike.
/// **Accuracy** damping_map_test; false findings ≤ 2 % of keys. **Source** [Cleveland1979] for the curve; limits:
/// common practice, no source.
[[nodiscard]] DampingMap mapDamping(std::span<const DampedPluck> plucks);

} // namespace quillbench
