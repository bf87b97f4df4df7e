#include "audio/capture_clock.hpp"

#include "core/support/contract.hpp"

#include <cmath>

namespace quillbench {
namespace {

constexpr double kNeighboursS = 1.0; // one stamp a second: hand-over jitter of neighbours is alike
constexpr double kShortestS = 10.0;

} // namespace

CaptureClock::CaptureClock(SampleRate nominal) : nominal_(nominal) {
    EXPECTS(nominal.hz() > 0.0);
}

void CaptureClock::add(const ClockStamp& stamp) {
    if (!any_ || stamp.run != origin_.run) {
        *this = CaptureClock(nominal_);
        any_ = true;
        origin_ = stamp;
        lastX_ = -kNeighboursS;
    }
    const double x = Seconds(stamp.time - origin_.time).count();
    if (x - lastX_ < kNeighboursS) {
        return;
    }
    lastX_ = x;
    // y: how far the device is ahead, in seconds of its own time; its slope over x is the drift.
    const double y = nominal_.duration(stamp.frame - origin_.frame).count() - x;
    n_ += 1.0; // running sums about the means (Welford)
    const double dx = x - meanX_;
    const double dy = y - meanY_;
    meanX_ += dx / n_;
    meanY_ += dy / n_;
    sumXX_ += dx * (x - meanX_);
    sumXY_ += dx * (y - meanY_);
    sumYY_ += dy * (y - meanY_);
}

std::optional<ClockCalibration> CaptureClock::drift() const {
    if (lastX_ < kShortestS) {
        return std::nullopt;
    }
    const double slope = sumXY_ / sumXX_;
    const double residual = std::fmax(0.0, sumYY_ - slope * sumXY_) / (n_ - 2.0);
    return ClockCalibration{slope * 1e6, std::sqrt(residual / sumXX_) * 1e6};
}

} // namespace quillbench
