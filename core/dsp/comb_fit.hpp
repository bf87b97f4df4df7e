#pragma once

#include "core/dsp/band_frames.hpp"

#include <Eigen/Core>

#include <array>
#include <complex>
#include <cstddef>
#include <optional>
#include <vector>

namespace quillbench {

/// A stiff string's partials f_n = n·f0·√(1+B·n²), sharpened while it moves by g·S(t), S the energy of its
/// motion relative to the pluck: tension modulation. **Source** [Fletcher1964], [Legge1984].
struct CombState {
    double f0 = 0.0; ///< Hz, at rest
    double lnB = 0.0;
    double glide = 0.0; ///< g, relative; 0.00058 is one cent at the pluck
    double pluck = 0.0; ///< s, instant of the pluck on the frames' time axis

    [[nodiscard]] double partial(int n) const;
};

/// Gaussian knowledge about a comb before listening; standard deviations, infinite where nothing is known.
struct CombPrior {
    double f0 = 0.0;
    double f0Deviation = 0.0; ///< Hz; 0: none
    double lnB = 0.0;
    double lnBDeviation = 0.7;
    double glide = 0.0;
    double glideDeviation = 0.0005;
};

/// A second polarisation of which all but its amplitude is known: it sounds beside a line and moves with it.
struct SecondPolarisation {
    double splitHz = 0.0;  ///< from the first
    double lnSlower = 0.0; ///< ln of its decay over the first's
    double share = 0.4;    ///< expected size of its amplitude against the first's; > 0
};

/// One partial of one string as a damped line, with its own small offset from the comb (a real string's
/// partials scatter by tenths of a cent: two polarisations, bridge).
struct CombLine {
    std::size_t string = 0;
    int number = 1;
    double offset = 0.0;          ///< Hz, e: how far from the comb
    double offsetPrior = 0.0;     ///< Hz
    double offsetDeviation = 0.1; ///< Hz
    double lnDecay = 0.0;         ///< ln σ, amplitude falls with exp(−σt)
    double lnDecayPrior = 0.0;
    double lnDecayDeviation = 0.4;
    std::complex<double> amplitude; ///< at its string's pluck
    std::optional<SecondPolarisation> second;
};

/// A band and the lines that fall into it.
struct CombBand {
    double centre = 0.0; ///< Hz
    std::vector<std::size_t> lines;
    Eigen::VectorXcd envelope;
    double energy = 0.0; ///< Σ|z|²
};

/// Joint fit of one or two stiff combs to the complex envelopes of many bands: amplitudes are eliminated in
/// each band (variable projection), decay and offset of each line are local with their priors, f0, ln B and
/// glide of each string are shared. Cost: Σ (M/κ)·ln(residual energy) + priors; Levenberg–Marquardt.
/// **Source** [Golub1973] for the projection.
class CombFit {
public:
    /// **Range** times not empty, in s; at least one line a band; frameCorrelation ≥ 1.
    CombFit(std::vector<double> times,
            std::vector<CombState> strings,
            std::vector<CombPrior> priors,
            std::vector<CombLine> lines,
            std::vector<CombBand> bands,
            double frameCorrelation);

    /// ln B of the two strings are alike within this deviation (unisons); 0: not tied.
    void tieStiffness(double deviation) { stiffnessTie_ = deviation; }

    /// Runs at most `steps` steps over bands below `bandLimit`; returns the cost reached.
    double refine(int steps, std::size_t bandLimit);

    /// Cost over the first `bandLimit` bands at each value of one string's f0, everything else as it stands:
    /// a grid of starting values. Leaves the fit as it was, but for its amplitudes.
    [[nodiscard]] std::vector<double>
    scan(std::size_t string, const std::vector<double>& f0, std::size_t bandLimit);

    /// A value that is linear in the fit near its optimum, with its standard deviation.
    struct Estimate {
        double value = 0.0;
        double deviation = 0.0;
    };

    /// Mean frequency of line `upper` minus that of line `lower` over [from, to] s of the frames' axis
    /// (least-squares slope of the phases); both in the same band. Without `lower`: of `upper` alone.
    [[nodiscard]] Estimate meanFrequency(std::size_t upper,
                                         std::optional<std::size_t> lower,
                                         double from,
                                         double to) const;

    /// f0·√(1+B)·(1 + mean glide) of a string over [from, to].
    [[nodiscard]] Estimate sustainPitch(std::size_t string, double from, double to) const;

    [[nodiscard]] const std::vector<double>& times() const { return times_; }

    [[nodiscard]] double frameCorrelation() const { return frameCorrelation_; }

    /// ∫S from the string's pluck to `time`, with the decays found.
    [[nodiscard]] double glidePhase(std::size_t string, double time) const;

    [[nodiscard]] const std::vector<CombState>& strings() const { return strings_; }

    [[nodiscard]] const std::vector<CombLine>& lines() const { return lines_; }

    [[nodiscard]] const std::vector<CombBand>& bands() const { return bands_; }

    [[nodiscard]] double lineFrequency(const CombLine& line) const;

    /// Residual energy of a band as a share of its energy.
    [[nodiscard]] double residualShare(std::size_t band) const;

    void setString(std::size_t string, double f0, double lnB);

private:
    static constexpr int kPerString = 3; // f0, ln B, glide

    struct BandSystem;

    [[nodiscard]] Eigen::Index columnsOf(const CombBand& band) const;
    [[nodiscard]] Eigen::MatrixXcd basis(const CombBand& band) const;
    [[nodiscard]] Eigen::VectorXcd amplitudesIn(const CombBand& band,
                                                const Eigen::MatrixXcd& e) const;
    [[nodiscard]] double meanGlide(std::size_t string, double from, double to) const;
    void updateGlideShape();
    [[nodiscard]] double project(CombBand& band);
    [[nodiscard]] double totalCost(std::size_t bandLimit);
    [[nodiscard]] double priorCost() const;
    [[nodiscard]] BandSystem system(const CombBand& band) const;
    void addPriors(Eigen::MatrixXd& normal, Eigen::VectorXd& gradient) const;
    [[nodiscard]] Eigen::MatrixXd normalMatrix() const;

    std::vector<double> times_;
    std::vector<CombState> strings_;
    std::vector<CombPrior> priors_;
    std::vector<CombLine> lines_;
    std::vector<CombBand> bands_;
    std::vector<std::vector<double>> glidePhase_;                 ///< [string][frame], ∫S
    std::vector<std::vector<std::array<double, 2>>> energyDecay_; ///< [string]: weight, 2σ
    double stiffnessTie_ = 0.0;
    double frameCorrelation_; ///< so many overlapping frames count as one
};

} // namespace quillbench
