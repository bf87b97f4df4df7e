#pragma once

#include "core/dsp/tied_pair/tied_fit.hpp"
#include "core/dsp/tied_pair/tied_pair.hpp"

#include <Eigen/Core>

#include <cstddef>
#include <optional>
#include <vector>

namespace quillbench {

/// The two partials that meet, and their beat by its definition: difference of the mean frequencies from 0.10 to 2.5 s
/// after the later pluck, or until one of them has died.
class TiedMeeting {
public:
    /// Partials from 0. Nothing where one of them is in no band.
    [[nodiscard]] static std::optional<TiedMeeting>
    find(const TiedFit& fit, int lowerPartial, int upperPartial, double laterPluck);

    [[nodiscard]] TiedOptimum
    optimum(const TiedFit& fit, const Eigen::VectorXd& at, double cost) const;

private:
    struct Line {
        TiedPart part;
        std::size_t band = 0;
        Eigen::Index first = 0; ///< of its two amplitudes
    };

    struct Amplitudes {
        std::complex<double> first;
        std::complex<double> second;
    };

    struct Loudest {
        double lower = 0.0;
        double upper = 0.0;
    };

    [[nodiscard]] Loudest loudest(const TiedFit& fit, const Eigen::VectorXd& at) const;
    [[nodiscard]] double beat(const TiedFit& fit,
                              const Eigen::VectorXd& at,
                              const Amplitudes& lower,
                              const Amplitudes& upper,
                              const Loudest& loud) const;

    Line lower_;
    Line upper_;
    double later_ = 0.0;
};

} // namespace quillbench
