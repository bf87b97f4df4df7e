#pragma once

#include <cstddef>
#include <span>
#include <vector>

namespace quillbench {

/// Takes the predictable ring of sounding strings out of a sound, so that only what begins anew is left: a
/// linear prediction error filter learned from a stretch of ring. A pluck leaves its own beginning, about as
/// long as the filter, at its own instant.
/// **Source** linear prediction by the autocorrelation method [Makhoul1975], Levinson's recursion
/// [Levinson1947].
class RingWhitener {
public:
    /// Learns from several stretches of ring together, each weighted by a Hann window and its own energy
    /// taken off. **Range** order ≥ 1; at least one stretch longer than `order` samples, not all silent;
    /// `loading` is the white noise added for calm, relative to the power, > 0.
    RingWhitener(std::span<const std::span<const double>> ring,
                 std::size_t order,
                 double loading = 1e-4);

    /// The filtered sound, of the same length; what lies before it counts as silence.
    [[nodiscard]] std::vector<double> apply(std::span<const double> sound) const;

    [[nodiscard]] std::size_t order() const { return taps_.size() - 1; }

private:
    std::vector<double> taps_; // 1, then minus the prediction
};

} // namespace quillbench
