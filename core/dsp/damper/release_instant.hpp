#pragma once

#include <optional>
#include <span>

namespace quillbench {

/// When a damper took hold, by the complex envelopes of the partials.
struct ReleaseInstant {
    double seconds = 0.0;
    double deviation = 0.0; ///< of the posterior, s
};

/// Settles a release that is roughly known. Each partial's complex envelope is a parabola that rings on, plus a step
/// of free complex size that grows as a damper stops a string, plus a slower one as a room forgets it: direct sound
/// and tail may add or cancel in any phase, so that power alone dates a release late. Sizes are eliminated (ridge
/// towards "all of the ring stops"), instant and decay tried on a grid and weighed by the misfit of all partials, the
/// logarithm of each, so that a knock in some of them hardly counts.
/// **Range** `rough` seconds into the sound; string 15 to 4 000 Hz. The search follows the instant back by up to
/// 0.3 s where it lies at the edge of what was looked at. Nothing where too little sound is there.
/// **Accuracy** tests/accuracy, set `damping`. **Source** elimination of linear unknowns as in [Golub1973].
[[nodiscard]] std::optional<ReleaseInstant> settleRelease(std::span<const double> sound,
                                                          double rateHz,
                                                          double stringHz,
                                                          double inharmonicity,
                                                          double rough);

} // namespace quillbench
