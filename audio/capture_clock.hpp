#pragma once

#include "core/units/frames.hpp"

#include <chrono>
#include <cstdint>
#include <optional>

namespace quillbench {

/// A frame and the instant at which it was handed over.
struct ClockStamp {
    FrameIndex frame;
    std::chrono::steady_clock::time_point time;
    std::uint32_t run = 0; ///< counts the openings of the device: frames of two runs do not compare
};

/// How fast a device's clock runs against the computer's steady clock: a least-squares line through stamps of one
/// run. The computer's own clock is as true as its time service keeps it (a few ppm, tens without one), so this is a
/// check, not a ClockCalibration. **Source** common practice, no source.
class CaptureClock {
public:
    explicit CaptureClock(SampleRate nominal);

    /// A stamp of a new run begins again. **Thread** one.
    void add(const ClockStamp& stamp);

    /// ppm by which the device runs fast, and its standard uncertainty (scatter of hand-over; neighbours within a
    /// second count as one). None before ten seconds.
    [[nodiscard]] std::optional<ClockCalibration> drift() const;

private:
    SampleRate nominal_;
    bool any_ = false;
    ClockStamp origin_;
    double lastX_ = 0.0; // seconds since origin
    double n_ = 0.0;
    double meanX_ = 0.0;
    double meanY_ = 0.0;
    double sumXX_ = 0.0;
    double sumXY_ = 0.0;
    double sumYY_ = 0.0;
};

} // namespace quillbench
