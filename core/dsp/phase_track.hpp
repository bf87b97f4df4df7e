#pragma once

#include "core/dsp/heterodyne_bank.hpp"
#include "core/support/fixed_vector.hpp"

namespace quillbench {

/// One partial over about 40 ms: its phase against the reference frequency, how sure that is, its power.
struct PhasePoint {
    double t = 0;        ///< seconds after the pluck
    double phase = 0;    ///< radians, unwrapped
    double variance = 0; ///< of the phase, from the noise, radians²
    double power = 0;    ///< squared amplitude
};

/// A partial followed through time until it has fallen 40 dB or into the noise.
struct PhaseTrack {
    static constexpr std::size_t kMostPoints = 72;

    int n = 1;
    double referenceHz = 0;
    double noisePower = 0; ///< of one point
    FixedVector<PhasePoint, kMostPoints> points;
};

/// Frames that make one point.
[[nodiscard]] std::size_t framesPerPoint(const HeterodyneBank& bank);

/// Mean power of a partial's points: of what sounds there when the string does not.
[[nodiscard]] double meanPointPower(const HeterodyneBank& bank, std::size_t partial);

/// Averages frames into points. The noise is read from how far a frame lies from the geometric mean of its
/// neighbours, which a decaying line satisfies exactly; it is at least `before`, the power of a point before
/// the pluck. Times count from `pluck` (seconds after the bank's origin).
[[nodiscard]] PhaseTrack
followPhase(const HeterodyneBank& bank, std::size_t partial, int n, double pluck, double before);

} // namespace quillbench
