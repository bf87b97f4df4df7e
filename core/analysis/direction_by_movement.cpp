#include "core/analysis/direction_by_movement.hpp"

#include "core/support/contract.hpp"

#include <algorithm>
#include <cmath>

namespace quillbench {

namespace {

/// The stronger string holds the middle nearer to itself: share of the movement that the middle makes.
constexpr double kShare = 0.5;
constexpr double kShareDeviation = 0.17;
/// Never surer than this: another string may have been turned.
constexpr double kSurest = 0.998;

double density(double x, double deviation) {
    // A broad tail: a pluck that was heard wrongly decides nothing by itself.
    const double z = x / deviation;
    return (std::exp(-0.5 * z * z) + 0.01) / deviation;
}

} // namespace

void DirectionByMovement::pluck(double size,
                                double sizeDeviation,
                                double middle,
                                double middleDeviation) {
    EXPECTS(sizeDeviation > 0.0 && middleDeviation > 0.0);
    if (last_) {
        const double moved = middle - last_->middle;
        double wide = 0.0;
        double narrow = 0.0;
        for (const double before : {1.0, -1.0}) {
            for (const double now : {1.0, -1.0}) {
                const double change = now * size - before * last_->size;
                const double deviation =
                    std::hypot(std::hypot(middleDeviation, last_->middleDeviation),
                               kShare * std::hypot(sizeDeviation, last_->sizeDeviation),
                               kShareDeviation * change);
                const double likely = (before > 0.0 ? wide_ : 1.0 - wide_) *
                                      density(moved - kShare * change, deviation);
                (now > 0.0 ? wide : narrow) += likely;
            }
        }
        wide_ = std::clamp(wide / (wide + narrow), 1.0 - kSurest, kSurest);
    }
    last_ = Pluck{size, sizeDeviation, middle, middleDeviation};
}

} // namespace quillbench
