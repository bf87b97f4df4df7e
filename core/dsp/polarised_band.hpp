#pragma once

#include <Eigen/Core>

#include <functional>
#include <vector>

namespace quillbench {

/// One string's partial inside a band, as a pair of polarisations: the second lies `split` away, is softer and
/// decays more slowly. **Source** two-stage decay of strings [Weinreich1977].
struct PolarisedPartial {
    double hz = 0.0; ///< first polarisation, prior mean
    double hzDeviation = 0.1;
    double lnDecay = 0.0; ///< of the first, per second
    double lnDecayDeviation = 0.5;
    double splitHz = 0.0; ///< second minus first, prior mean
    double splitDeviation = 0.2;
    double lnSlower = -0.4; ///< ln of second decay over first, prior mean
    double lnSlowerDeviation = 0.4;
    double secondShare = 0.4; ///< expected size of the second's amplitude against the first's
    bool splitKnown = false;  ///< the sign of the split is known: no second start
    double pluck = 0.0;       ///< s
    std::function<double(double)> warp; ///< t ↦ t + g∫S: time as the gliding string sees it
};

struct PolarisedBandPlan {
    double centre = 0.0; ///< Hz of the envelope
    double from = 0.1;   ///< s, the mean is taken over [from, to]
    double to = 2.5;
    double frameCorrelation = 2.67;
    double modelFloor = 1e-4; ///< share of the band's energy that no model explains
};

struct PolarisedBandResult {
    std::vector<double>
        meanHz; ///< of each partial, least-squares slope of its phase over [from, to] or 40 dB
    Eigen::MatrixXd covariance; ///< of meanHz, several optima included
    std::vector<double> level;  ///< amplitude of each at its pluck
    /// By how much each mean, Hz, would differ had the second polarisation been a fifth louder or softer, or the partial
    /// been followed 3 dB further or less: where the two nearly cancel, the phase may as well go round the other way.
    std::vector<double> fragility;
    std::vector<PolarisedPartial>
        best; ///< the partials at the best optimum, deviations as known afterwards
};

/// Fits one or two partials to one band's envelope and reads their mean frequencies. Starts from both signs of
/// each split; the optima are weighed by their posterior. Deterministic.
[[nodiscard]] PolarisedBandResult fitPolarisedBand(const std::vector<double>& times,
                                                   const Eigen::VectorXcd& envelope,
                                                   const std::vector<PolarisedPartial>& partials,
                                                   const PolarisedBandPlan& plan);

} // namespace quillbench
