#pragma once

#include "core/dsp/tied_pair/lone_record.hpp"
#include "core/dsp/tied_pair/tied_fit.hpp"
#include "core/dsp/tied_pair/tied_pair.hpp"

#include <Eigen/Core>

#include <utility>
#include <vector>

namespace quillbench {

/// Where a fit of the pair may end, and what it costs.
struct TiedPlace {
    double cost = 0.0;
    Eigen::VectorXd at;
    double pluck = 0.0; ///< s, of the lower string
};

/// Finds the optima of a pair's fit: the upper string by a grid about the beat heard before and about its mirror, the
/// instant of the lower one's pluck by the phases of its partials against the record, then either sign of the split of the
/// upper string's meeting partial. **Range** a fit of lower, upper, and lower alone.
class TiedSearch {
public:
    TiedSearch(TiedFit& fit, const TiedQuestion& question, const LoneRecord& lone);

    /// The optima, each refined.
    [[nodiscard]] std::vector<TiedPlace> run();

private:
    [[nodiscard]] std::vector<double> grid() const;
    [[nodiscard]] std::vector<TiedPlace> coarse();
    [[nodiscard]] std::vector<std::pair<double, double>> shifts(const Eigen::VectorXd& at);
    [[nodiscard]] std::vector<TiedPlace> shifted(std::vector<TiedPlace> places);
    void pluckedAt(double pluck);
    [[nodiscard]] std::vector<TiedPlace> distinct(std::vector<TiedPlace> places) const;
    [[nodiscard]] std::vector<TiedPlace> split(const std::vector<TiedPlace>& places);

    TiedFit& fit_;
    const TiedQuestion& question_;
    Eigen::Index upper_; ///< first unknown of the upper string
    Eigen::VectorXd start_;
    double f0_ = 0.0;
    double met_ = 0.0; ///< Hz, the lower string's meeting partial
};

} // namespace quillbench
