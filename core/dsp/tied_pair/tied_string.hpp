#pragma once

#include <Eigen/Core>

#include <span>
#include <vector>

namespace quillbench {

/// Unknowns of a string: place of f0 in cents from its reference, ln B, glide in cents at the pluck, and the logarithm
/// of how much faster than its energy the glide dies.
inline constexpr Eigen::Index kTiedPlace = 0;
inline constexpr Eigen::Index kTiedStiffness = 1;
inline constexpr Eigen::Index kTiedGlide = 2;
inline constexpr Eigen::Index kTiedStretch = 3;

inline constexpr Eigen::Index kTiedGlobals = 4;

/// Unknowns of a partial: cents off the comb, ln σ of the first polarisation, the second's distance from it in cents, and
/// ln of its σ over the first's.
inline constexpr Eigen::Index kTiedOffset = 0;
inline constexpr Eigen::Index kTiedDecay = 1;
inline constexpr Eigen::Index kTiedSplit = 2;
inline constexpr Eigen::Index kTiedSlower = 3;

inline constexpr Eigen::Index kTiedLocals = 4;

/// Course of a string's glide: S falls with the energy of all its lines. **Source** [Legge1984].
class GlideCourse {
public:
    /// Energies and amplitude decays (1/s) of the lines. **Range** as many of both, not empty, positive.
    GlideCourse(std::span<const double> energies, std::span<const double> decays);

    /// ∫S from the pluck to `time`, S(t·e^stretch) being 1 at the pluck.
    struct Phase {
        double value = 0.0;     ///< s
        double byStretch = 0.0; ///< its derivative
    };

    [[nodiscard]] Phase at(double time, double stretch) const;

private:
    std::vector<double> integral_;
    std::vector<double> course_;
};

/// A stiff string that sounds, every partial of it in two polarisations, with what is known of it beforehand.
struct TiedString {
    double reference = 0.0; ///< Hz, f0 of place 0
    double pluck = 0.0;     ///< s, on the axis of its frames
    int partials = 0;
    Eigen::VectorXd mean; ///< of all unknowns
    Eigen::VectorXd deviation;
    GlideCourse course;

    [[nodiscard]] Eigen::Index unknowns() const { return mean.size(); }

    /// Index of a partial's first unknown. **Range** partial from 0.
    [[nodiscard]] static Eigen::Index local(int partial) {
        return kTiedGlobals + kTiedLocals * partial;
    }

    /// Frequency of a partial (from 0) where it is expected.
    [[nodiscard]] double expectedHz(int partial) const;
};

/// A string near `hz` of which its register alone tells. **Range** hz 15 to 4000, inharmonicity > 0, partials ≥ 1.
[[nodiscard]] TiedString
tiedString(double hz, double inharmonicity, double pluck, int partials, double placeCents);

} // namespace quillbench
