#pragma once

#include "core/dsp/tied_pair/tied_band.hpp"
#include "core/dsp/tied_pair/tied_string.hpp"

#include <Eigen/Core>

#include <array>
#include <complex>
#include <cstddef>
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

/// A segment's lines at one place of the unknowns, and what their derivatives are made of.
struct PlacedLines {
    Eigen::MatrixXcd lines;  ///< [frame][two a part], at amplitude 1 at the pluck
    Eigen::MatrixXd courses; ///< [frame][three a part]: time since the pluck, ∫S, its derivative
};

/// A band's amplitudes and what they leave.
struct SolvedBand {
    std::vector<PlacedLines> placed;
    std::vector<Eigen::Index> firstLine; ///< of each segment, and one past the last
    std::vector<Eigen::VectorXcd> rest;  ///< of each segment, unweighted
    Eigen::MatrixXcd normal;             ///< of the amplitudes
    Eigen::VectorXcd amplitudes;
    Eigen::VectorXd prior; ///< 1/deviation of each amplitude
    Eigen::MatrixXcd ties; ///< two rows over the amplitudes, weighted; empty where not tied
    std::array<double, 2> tieHz{};
};

/// Strings of which every partial has two polarisations, and what they leave of a band's envelopes once its amplitudes are
/// eliminated: those of the lower string in the pair are tied to those heard of it alone by Student's t, so that a partial
/// that was plucked otherwise does not pull. Unknowns: those of each string in turn, then the logarithm of the pair's
/// loudness over the record's, and the shift in time between the two plucks in units of kShiftUnit.
/// **Source** variable projection [Golub1973].
struct TiedModel {
    static constexpr double kShiftUnit = 1e-4; ///< s
    static constexpr double kSecondShare =
        0.5; ///< expected size of a second polarisation, of the loudest frame

    explicit TiedModel(std::vector<TiedString> someStrings);

    [[nodiscard]] Eigen::Index unknowns() const { return offsets.back() + 2; }

    [[nodiscard]] Eigen::Index gainIndex() const { return offsets.back(); }

    [[nodiscard]] Eigen::Index shiftIndex() const { return offsets.back() + 1; }

    /// Line `second` of a part: its frequency in Hz and its σ.
    struct LineAt {
        double hz = 0.0;
        double decay = 0.0;
    };

    [[nodiscard]] LineAt lineAt(const Eigen::VectorXd& at, const TiedPart& part, bool second) const;

    /// The amplitudes that fit best. **Range** at as long as unknowns().
    [[nodiscard]] SolvedBand solve(const Eigen::VectorXd& at, const TiedBand& band) const;

    /// Effective frames times ln(noise) over the thirds of every segment, and what the amplitudes cost.
    [[nodiscard]] double costOf(const TiedBand& band, const SolvedBand& solved) const;

    /// The band's noise, its ties' weights and references from what is left.
    void settle(const Eigen::VectorXd& at, TiedBand& band, const SolvedBand& solved) const;

    /// Normal matrix and gradient of all unknowns.
    struct Normal {
        Eigen::MatrixXd matrix;
        Eigen::VectorXd gradient;
    };

    /// Adds a band's, amplitudes eliminated. **Source** Jacobian after [Kaufman1975].
    void addTo(Normal& normal, const Eigen::VectorXd& at, const TiedBand& band) const;

    std::vector<TiedString> strings;
    std::vector<Eigen::Index> offsets; ///< of each string's unknowns, and one past the last
    AmplitudeTie tie;
    double secondShare = kSecondShare;

private:
    [[nodiscard]] PlacedLines place(const Eigen::VectorXd& at, const TiedSegment& segment) const;
    void addTies(SolvedBand& solved, const Eigen::VectorXd& at, const TiedBand& band) const;
};

/// What a third's frames weigh: both quadratures of the noise, overlap counted.
[[nodiscard]] double weightOf(const TiedSegment& segment, std::size_t third);

} // namespace quillbench
