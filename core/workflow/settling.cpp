#include "core/workflow/settling.hpp"

#include "core/support/contract.hpp"

#include <algorithm>
#include <cmath>

namespace quillbench {

namespace {

/// Scatter of a well-plucked string from one pluck to the next lies near 0.3 cent; a string that still moves goes
/// further than this within three plucks.
constexpr double kStillCents = 0.5;
/// No reading counts for surer than this.
constexpr double kLeastCents = 0.01;

} // namespace

bool insideTolerance(const Mark& mark, Cents tolerance) {
    return mark.good && abs(mark.deviation) <= tolerance;
}

bool hasSettled(std::span<const Mark> marks, Cents tolerance) {
    EXPECTS(tolerance > Cents(0.0));
    if (marks.size() < kPlucksToSettle) {
        return false;
    }
    const std::span<const Mark> last = marks.last(kPlucksToSettle);
    Cents sum;
    Cents uncertainties;
    for (const Mark& mark : last) {
        if (!insideTolerance(mark, tolerance)) {
            return false;
        }
        sum += mark.deviation;
        uncertainties += mark.uncertainty;
    }
    const double count = static_cast<double>(kPlucksToSettle);
    if (abs(sum / count) + uncertainties / count > tolerance) {
        return false;
    }
    const Mark& first = last.front();
    const Mark& newest = last.back();
    const double explained =
        2.0 * std::hypot(first.uncertainty.value(), newest.uncertainty.value());
    return abs(newest.deviation - first.deviation).value() <= std::max(kStillCents, explained);
}

Mark settledMark(std::span<const Mark> marks) {
    EXPECTS(marks.size() >= kPlucksToSettle);
    Mark result = marks.back();
    double weights = 0.0;
    double sum = 0.0;
    for (const Mark& mark : marks.last(kPlucksToSettle)) {
        const double weight = 1.0 / std::pow(std::max(mark.uncertainty.value(), kLeastCents), 2);
        weights += weight;
        sum += weight * mark.deviation.value();
        result.uncertainty = std::min(result.uncertainty, mark.uncertainty);
    }
    result.deviation = Cents(sum / weights);
    return result;
}

} // namespace quillbench
