#pragma once

#include <cstddef>
#include <span>
#include <vector>

namespace quillbench {

/// A place in whitened sound where it becomes louder all at once.
struct Beginning {
    std::size_t at = 0; ///< sample of the rise
    double riseDb = 0;  ///< the millisecond after it against what was before
    double power = 0;   ///< mean square of the millisecond after it
};

/// Finds beginnings in whitened sound by the power of a millisecond ahead against that of the 1.5 to 6 ms
/// before. **Range** rate in hertz, `from` ≤ `to` inside the sound; `floor` is the power of noise alone.
/// In order of time.
[[nodiscard]] std::vector<Beginning> findBeginnings(std::span<const double> whitened,
                                                    double rateHz,
                                                    std::size_t from,
                                                    std::size_t to,
                                                    double floor,
                                                    double leastRiseDb);

/// The instant at which one loud beginning near `rough` really begins: the likeliest change of variance
/// between `from` and `to`. **Source** maximum likelihood of a change point, [Hinkley1970].
[[nodiscard]] std::size_t likeliestChange(std::span<const double> whitened,
                                          double rateHz,
                                          std::size_t from,
                                          std::size_t to,
                                          double floor);

/// The first pluck of a recording that holds one string: the first beginning that is not much weaker than the
/// strongest, and not only a touch before it.
[[nodiscard]] std::size_t firstStrongBeginning(std::span<const double> whitened,
                                               double rateHz,
                                               double periodSeconds,
                                               double floor);

/// Mean square of the quietest `windowSeconds` long stretch: the noise alone.
[[nodiscard]] double
quietestPower(std::span<const double> sound, double rateHz, double windowSeconds);

} // namespace quillbench
