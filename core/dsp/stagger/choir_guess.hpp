#pragma once

#include <cstddef>
#include <span>
#include <vector>

namespace quillbench {

/// What one pluck added to the odd partials of the key's 8′, as a share of all that it added, 0 to 1: small for
/// a 4′, whose partials are all even ones of the 8′.
/// **Range** rate in hertz; keyHz the 8′ pitch; plucks as samples, ascending.
/// **Accuracy** rough: bodies and plucking points favour some partials; it ranks the plucks of one key.
[[nodiscard]] std::vector<double> oddShares(std::span<const double> sound,
                                            double rateHz,
                                            double keyHz,
                                            std::span<const std::size_t> plucks);

struct GuessedChoir {
    std::size_t choir = 0;
    double confidence = 0.0;
};

/// Which choir made which pluck, without having heard any alone: choirs an octave up take the plucks with the
/// least odd share; choirs of equal pitch cannot be told apart and stand in the order given.
/// **Range** ratios of pitch to the 8′, at least as many as shares.
[[nodiscard]] std::vector<GuessedChoir> guessChoirs(std::span<const double> shares,
                                                    std::span<const double> ratios);

} // namespace quillbench
