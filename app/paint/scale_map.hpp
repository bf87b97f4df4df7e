#pragma once

#include "core/units/cents.hpp"

#include <vector>

namespace quillbench {

/// A straight line between a value and a pixel. What lies outside is not clipped unless asked for.
class LinearScale {
public:
    /// **Range** valueAtStart ≠ valueAtEnd; pixels may run either way.
    LinearScale(double valueAtStart, double valueAtEnd, double pixelAtStart, double pixelAtEnd);

    [[nodiscard]] double pixel(double value) const;
    [[nodiscard]] double value(double pixel) const;

    /// As pixel(), held between the two ends.
    [[nodiscard]] double pixelInside(double value) const;

private:
    double valueAtStart_;
    double pixelAtStart_;
    double valueAtEnd_;
    double pixelAtEnd_;
};

/// Cents above and below a target, compressed so that a tenth of a cent and fifty cents both read on one picture:
/// y = ± half · ln(1 + |c| / fine) / ln(1 + span / fine), upwards for sharp.
class CentsScale {
public:
    /// Beyond this a deviation lies at the edge.
    static constexpr double kSpanCents = 60.0;
    /// Below this the scale is nearly linear.
    static constexpr double kFineCents = 0.25;

    /// `zero`: pixel of the target; `half` > 0: pixels from there to the edge.
    CentsScale(double zero, double half);

    /// Held inside the edges.
    [[nodiscard]] double pixel(Cents deviation) const;

    /// The inverse of pixel(), inside the edges.
    [[nodiscard]] Cents cents(double pixel) const;

    /// Where a person expects a line, above and below: 1, 3, 10, 30 cents.
    [[nodiscard]] static std::vector<Cents> ticks();

private:
    double zero_;
    double half_;
};

} // namespace quillbench
