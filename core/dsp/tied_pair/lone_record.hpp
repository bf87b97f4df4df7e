#pragma once

#include "core/dsp/tied_pair/tied_band.hpp"
#include "core/dsp/tied_pair/tied_string.hpp"

#include <Eigen/Core>

#include <vector>

namespace quillbench {

/// A string fitted by itself.
struct LoneRecord {
    TiedString string;
    Eigen::VectorXd found;             ///< its unknowns
    std::vector<TiedSegment> segments; ///< one a partial that was heard; parts refer to string 0
};

} // namespace quillbench
