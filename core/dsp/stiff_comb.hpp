#pragma once

#include <span>

namespace quillbench {

/// The partials of a stiff string: f_n = n·f0·√(1 + B·n²). **Source** [Fletcher1964].
struct StiffComb {
    double f0 = 0; ///< hertz; of the string without stiffness
    double b = 0;  ///< inharmonicity B

    [[nodiscard]] double partial(double n) const;

    /// Partial 1.
    [[nodiscard]] double pitch() const { return partial(1.0); }
};

/// What one partial says.
struct MeasuredPartial {
    double n = 1;
    double hz = 0;
    double sd = 1; ///< hertz
};

struct StiffCombFit {
    StiffComb comb;
    double pitchSd = 0; ///< of f0·√(1+B), hertz
    double lnBSd = 0;
};

/// Robust weighted fit of f0 and ln B by Gauss–Newton, Tukey's biweight on the residuals, normal prior on
/// ln B. **Range** at least one partial; `start` near the truth (partials within half a spacing).
/// **Source** Tukey's biweight and iterative reweighting [Holland1977].
[[nodiscard]] StiffCombFit fitStiffComb(std::span<const MeasuredPartial> partials,
                                        const StiffComb& start,
                                        double priorB,
                                        double priorLnSd);

} // namespace quillbench
