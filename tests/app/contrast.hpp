#pragma once

#include <QColor>
#include <algorithm>
#include <array>
#include <cmath>

namespace quillbench::test {

using Rgb = std::array<double, 3>;

/// WCAG 2.1, "relative luminance": the threshold there is 0.03928.
[[nodiscard]] inline double linear(double channel) {
    return channel <= 0.03928 ? channel / 12.92 : std::pow((channel + 0.055) / 1.055, 2.4);
}

[[nodiscard]] inline Rgb linearOf(const QColor& colour) {
    return {linear(static_cast<double>(colour.redF())),
            linear(static_cast<double>(colour.greenF())),
            linear(static_cast<double>(colour.blueF()))};
}

[[nodiscard]] inline double luminance(const QColor& colour) {
    const Rgb rgb = linearOf(colour);
    return 0.2126 * rgb[0] + 0.7152 * rgb[1] + 0.0722 * rgb[2];
}

/// WCAG 2.1, "contrast ratio".
[[nodiscard]] inline double contrast(const QColor& a, const QColor& b) {
    const double one = luminance(a);
    const double other = luminance(b);
    return (std::max(one, other) + 0.05) / (std::min(one, other) + 0.05);
}

} // namespace quillbench::test
