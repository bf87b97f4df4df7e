#pragma once

#include <cstddef>
#include <span>

namespace quillbench {

/// The pluck of a recording that holds one string: where the partials that ring later begin all at once, then the
/// likeliest change in whitened sound near there. A plectrum that touches its string before it plucks moves no partial
/// of it, and noise has little in so few narrow bands.
/// **Range** `sound` and `whitened` as long as each other, `ring` a part of `sound` after the pluck; period of the
/// string in seconds. **Accuracy** within 3 ms where the ring stands above the noise.
[[nodiscard]] std::size_t pluckOfSolo(std::span<const double> sound,
                                      std::span<const double> whitened,
                                      std::span<const double> ring,
                                      double rateHz,
                                      double periodSeconds);

} // namespace quillbench
