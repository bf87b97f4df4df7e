#pragma once

#include <compare>

namespace quillbench {

/// Beats per second with their direction: positive where the upper string is wide of the pure interval.
class BeatRate {
public:
    constexpr BeatRate() = default;

    constexpr explicit BeatRate(double perSecond) : perSecond_(perSecond) {}

    [[nodiscard]] constexpr double perSecond() const { return perSecond_; }

    constexpr auto operator<=>(const BeatRate&) const = default; // NOLINT(modernize-use-nullptr)

    constexpr BeatRate operator-() const { return BeatRate(-perSecond_); }

private:
    double perSecond_ = 0.0;
};

constexpr BeatRate operator+(BeatRate a, BeatRate b) {
    return BeatRate(a.perSecond() + b.perSecond());
}

constexpr BeatRate operator-(BeatRate a, BeatRate b) {
    return BeatRate(a.perSecond() - b.perSecond());
}

constexpr BeatRate operator*(BeatRate a, double factor) {
    return BeatRate(a.perSecond() * factor);
}

constexpr BeatRate abs(BeatRate a) {
    return a.perSecond() < 0.0 ? -a : a;
}

} // namespace quillbench
