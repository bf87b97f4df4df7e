#pragma once

#include "core/dsp/tied_pair/tied_model.hpp"
#include "core/support/random.hpp"

#include <Eigen/Core>

#include <cstddef>
#include <vector>

namespace quillbench {

/// Fits the strings of a model to the envelopes of many bands at once, with Gaussian knowledge about all unknowns.
/// Levenberg–Marquardt over the amplitudes' projection.
class TiedFit {
public:
    /// Quadratic knowledge about all unknowns: mean, and precision about it.
    struct Prior {
        Eigen::VectorXd mean;
        Eigen::MatrixXd precision;
    };

    TiedFit(std::vector<TiedString> strings, std::vector<TiedBand> someBands, Prior knowledge);

    [[nodiscard]] Eigen::Index unknowns() const { return prior.mean.size(); }

    /// Index of a string's first unknown.
    [[nodiscard]] Eigen::Index first(std::size_t string) const { return model.offsets[string]; }

    /// The noise of every band from what is left at `at`; the ties' weights too.
    void settleNoise(const Eigen::VectorXd& at, int times);

    [[nodiscard]] double costAt(const Eigen::VectorXd& at) const;

    /// Which unknowns move, and over which bands; empty: all.
    struct Choice {
        std::vector<Eigen::Index> unknowns;
        std::vector<std::size_t> bands;
    };

    /// At most `steps` steps from `at`, which becomes where it ended; returns the cost there.
    double refine(Eigen::VectorXd& at, int steps, const Choice& choice = {});

    /// Amplitudes of a band's segments, one after the other, at their strings' plucks; two a part.
    [[nodiscard]] Eigen::VectorXcd amplitudes(const Eigen::VectorXd& at, std::size_t band) const;

    /// One draw of them from their distribution there.
    [[nodiscard]] Eigen::VectorXcd
    drawnAmplitudes(const Eigen::VectorXd& at, std::size_t band, Random& random) const;

    /// Covariance of real or imaginary part of these amplitudes.
    [[nodiscard]] Eigen::MatrixXcd amplitudeCovariance(const Eigen::VectorXd& at,
                                                       std::size_t band) const;

    /// Normal matrix of all unknowns, amplitudes eliminated.
    [[nodiscard]] Eigen::MatrixXd normalMatrix(const Eigen::VectorXd& at) const;

    /// Logarithm of the posterior's volume about an optimum, up to a constant (Laplace).
    [[nodiscard]] double logVolume(const Eigen::VectorXd& at) const;

    /// The glides follow the energies of the lines found.
    void reshape(const Eigen::VectorXd& at);

    TiedModel model;
    std::vector<TiedBand> bands;
    Prior prior;

private:
    void settleOver(const std::vector<std::size_t>& chosen, const Eigen::VectorXd& at, int times);
    [[nodiscard]] double costOver(const std::vector<std::size_t>& chosen,
                                  const Eigen::VectorXd& at) const;
};

} // namespace quillbench
