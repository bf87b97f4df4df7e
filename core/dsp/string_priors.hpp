#pragma once

namespace quillbench {

/// What is known of a plucked wire string before it is heard, from its pitch alone.
/// **Source** measured notes of an Italian-style 8′ (B, decay, glide) and computed French-type stringing
/// with scalings from published measurements; the spread covers both.
struct StringPriors {
    double inharmonicity;     ///< B, most likely value
    double inharmonicityLnSd; ///< standard deviation of ln B
    double decayRate;         ///< amplitude decay of partial 1, 1/s
    double decayLnSd;         ///< standard deviation of its logarithm
    double glideCents;        ///< sharpness at the pluck against the pitch at rest, median
    double glideLnSd;         ///< standard deviation of its logarithm
};

/// **Range** pitch of partial 1, 15 to 4 000 Hz; knownInharmonicity 0 where unknown.
[[nodiscard]] StringPriors stringPriors(double pitchHz, double knownInharmonicity);

/// Typical amplitude decay rate of partial n against partial 1's, from its number and frequency.
[[nodiscard]] double relativeDecay(int n, double partialHz);

} // namespace quillbench
