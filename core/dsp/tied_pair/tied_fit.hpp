#pragma once

#include "core/dsp/tied_pair/tied_band.hpp"
#include "core/dsp/tied_pair/tied_string.hpp"
#include "core/support/random.hpp"

#include <Eigen/Core>

#include <array>
#include <complex>
#include <cstddef>
#include <limits>
#include <span>
#include <vector>

namespace quillbench {

/// How alike a partial's two amplitudes are from pluck to pluck, as shares of the louder and the softer polarisation: the
/// same plectrum at the same place gives the same partials, how the motion divides between them is looser.
struct AmplitudeTie {
    double louder = 0.2;
    double softer = 0.5;
};

/// One band: what was heard of the pair, and of the lower string by itself where `tied`.
struct TiedBand {
    std::vector<TiedSegment> segments;
    bool tied = false;
    Eigen::Index lowerLine = 0;        ///< of the lower string's first polarisation, in segments[0]
    std::array<double, 2> reference{}; ///< amplitudes heard alone, at the pair's loudness
    std::array<double, 2> weight{1.0, 1.0};
};

/// Fits strings of which every partial has two polarisations to the envelopes of many bands at once. Amplitudes are
/// eliminated in each band, those of the lower string in the pair tied to those heard of it alone (Student's t, so that a
/// partial that was plucked otherwise does not pull). Unknowns: those of each string in turn, then the logarithm of the
/// pair's loudness over the record's, and the shift in time between the two plucks in units of kShiftUnit.
/// Cost: Σ effective frames · ln(noise) over the thirds of every segment + priors; Levenberg–Marquardt.
/// **Source** variable projection [Golub1973], its Jacobian [Kaufman1975].
class TiedFit {
public:
    static constexpr double kShiftUnit = 1e-4; ///< s
    static constexpr double kSecondShare =
        0.5; ///< expected size of a second polarisation, of the loudest frame

    /// Quadratic knowledge about all unknowns: mean, and precision about it.
    struct Prior {
        Eigen::VectorXd mean;
        Eigen::MatrixXd precision;
    };

    TiedFit(std::vector<TiedString> strings, std::vector<TiedBand> bands, Prior prior);

    [[nodiscard]] Eigen::Index unknowns() const { return prior.mean.size(); }

    [[nodiscard]] Eigen::Index first(std::size_t string) const { return offsets_[string]; }

    [[nodiscard]] Eigen::Index gainIndex() const { return unknowns() - 2; }

    [[nodiscard]] Eigen::Index shiftIndex() const { return unknowns() - 1; }

    /// The noise of every band from what is left at `at`; the ties' weights too.
    void settleNoise(const Eigen::VectorXd& at, int times);

    [[nodiscard]] double costAt(const Eigen::VectorXd& at);

    /// Which unknowns move, and over which bands; empty: all.
    struct Choice {
        std::vector<Eigen::Index> unknowns;
        std::vector<std::size_t> bands;
    };

    /// At most `steps` steps from `at`, which becomes where it ended; returns the cost there.
    double refine(Eigen::VectorXd& at, int steps, const Choice& choice = {});

    /// Amplitudes of a band's segments, one after the other, at their strings' plucks; two a part.
    [[nodiscard]] Eigen::VectorXcd amplitudes(const Eigen::VectorXd& at, std::size_t band);

    /// One draw of them from their distribution there.
    [[nodiscard]] Eigen::VectorXcd
    drawnAmplitudes(const Eigen::VectorXd& at, std::size_t band, Random& random);

    /// Covariance of real or imaginary part of these amplitudes.
    [[nodiscard]] Eigen::MatrixXcd amplitudeCovariance(const Eigen::VectorXd& at, std::size_t band);

    /// Normal matrix of all unknowns, amplitudes eliminated.
    [[nodiscard]] Eigen::MatrixXd normalMatrix(const Eigen::VectorXd& at);

    /// Logarithm of the posterior's volume about an optimum, up to a constant (Laplace).
    [[nodiscard]] double logVolume(const Eigen::VectorXd& at);

    /// The glides follow the energies of the lines found.
    void reshape(const Eigen::VectorXd& at);

    /// Line `second` of a part: its frequency in Hz and its σ.
    struct LineAt {
        double hz = 0.0;
        double decay = 0.0;
    };

    [[nodiscard]] LineAt lineAt(const Eigen::VectorXd& at, const TiedPart& part, bool second) const;

    std::vector<TiedString> strings;
    std::vector<TiedBand> bands;
    Prior prior;
    AmplitudeTie tie;
    double secondShare = kSecondShare;

private:
    struct Placed;
    struct Solved;
    struct Normal;

    [[nodiscard]] Placed place(const Eigen::VectorXd& at, const TiedSegment& segment) const;
    [[nodiscard]] Solved
    solve(const Eigen::VectorXd& at, const TiedBand& band, std::vector<Placed> placed) const;
    [[nodiscard]] Solved solve(const Eigen::VectorXd& at, const TiedBand& band) const;
    static std::array<double, TiedSegment::kThirds> noiseOf(const TiedSegment& segment,
                                                            const Eigen::VectorXcd& rest);
    [[nodiscard]] double costOf(const TiedBand& band, const Solved& solved) const;
    static void settle(TiedBand& band, const Solved& solved);
    void addTo(Normal& normal, const Eigen::VectorXd& at, const TiedBand& band) const;
    [[nodiscard]] double priorCost(const Eigen::VectorXd& at) const;

    std::vector<Eigen::Index> offsets_;
};

} // namespace quillbench
