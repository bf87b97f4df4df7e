#pragma once

#include "core/dsp/comb_fit.hpp"

#include <Eigen/Cholesky>

namespace quillbench {

/// Normal equations of one band: unknowns are [offset, ln decay per line | shared], amplitudes included first.
struct CombFit::BandSystem {
    Eigen::MatrixXd local;  ///< H_ll with priors
    Eigen::MatrixXd cross;  ///< H_lg
    Eigen::MatrixXd shared; ///< H_gg
    Eigen::VectorXd localGradient;
    Eigen::VectorXd sharedGradient;
    Eigen::LDLT<Eigen::MatrixXd> solver;
};

} // namespace quillbench
