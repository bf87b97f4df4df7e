#include "app/paint/scale_map.hpp"

#include "core/support/contract.hpp"

#include <algorithm>
#include <cmath>

namespace quillbench {

LinearScale::LinearScale(double valueAtStart,
                         double valueAtEnd,
                         double pixelAtStart,
                         double pixelAtEnd)
    : valueAtStart_(valueAtStart),
      pixelAtStart_(pixelAtStart),
      valueAtEnd_(valueAtEnd),
      pixelAtEnd_(pixelAtEnd) {
    EXPECTS(valueAtStart < valueAtEnd || valueAtStart > valueAtEnd);
}

double LinearScale::pixel(double value) const {
    return pixelAtStart_ +
           (pixelAtEnd_ - pixelAtStart_) * (value - valueAtStart_) / (valueAtEnd_ - valueAtStart_);
}

double LinearScale::value(double pixel) const {
    return valueAtStart_ +
           (valueAtEnd_ - valueAtStart_) * (pixel - pixelAtStart_) / (pixelAtEnd_ - pixelAtStart_);
}

double LinearScale::pixelInside(double value) const {
    const auto [low, high] = std::minmax(pixelAtStart_, pixelAtEnd_);
    return std::clamp(pixel(value), low, high);
}

CentsScale::CentsScale(double zero, double half) : zero_(zero), half_(half) {
    EXPECTS(half > 0.0);
}

double CentsScale::pixel(Cents deviation) const {
    const double size = std::min(abs(deviation).value(), kSpanCents);
    const double part = std::log1p(size / kFineCents) / std::log1p(kSpanCents / kFineCents);
    return zero_ - std::copysign(half_ * part, deviation.value());
}

Cents CentsScale::cents(double pixel) const {
    const double part = std::min(std::abs(zero_ - pixel) / half_, 1.0);
    const double size = kFineCents * std::expm1(part * std::log1p(kSpanCents / kFineCents));
    return Cents(std::copysign(size, zero_ - pixel));
}

std::vector<Cents> CentsScale::ticks() {
    return {Cents(1.0), Cents(3.0), Cents(10.0), Cents(30.0)};
}

} // namespace quillbench
