#pragma once

#include <chrono>
#include <compare>
#include <cstdint>

namespace quillbench {

/// A length of time in seconds.
using Seconds = std::chrono::duration<double>;

/// A number of sample frames (a difference of two instants).
class FrameCount {
public:
    constexpr FrameCount() = default;

    constexpr explicit FrameCount(std::int64_t value) : value_(value) {}

    [[nodiscard]] constexpr std::int64_t value() const { return value_; }

    constexpr auto operator<=>(const FrameCount&) const = default; // NOLINT(modernize-use-nullptr)

private:
    std::int64_t value_ = 0;
};

/// An instant: the index of a sample frame since the source started.
class FrameIndex {
public:
    constexpr FrameIndex() = default;

    constexpr explicit FrameIndex(std::int64_t value) : value_(value) {}

    [[nodiscard]] constexpr std::int64_t value() const { return value_; }

    constexpr auto operator<=>(const FrameIndex&) const = default; // NOLINT(modernize-use-nullptr)

private:
    std::int64_t value_ = 0;
};

constexpr FrameCount operator-(FrameIndex a, FrameIndex b) {
    return FrameCount(a.value() - b.value());
}

constexpr FrameIndex operator+(FrameIndex a, FrameCount b) {
    return FrameIndex(a.value() + b.value());
}

constexpr FrameIndex operator-(FrameIndex a, FrameCount b) {
    return FrameIndex(a.value() - b.value());
}

constexpr FrameCount operator+(FrameCount a, FrameCount b) {
    return FrameCount(a.value() + b.value());
}

/// How far a sound card's clock runs from true, in parts per million, with its standard uncertainty.
/// 50 ppm are 0.087 cent. True rate = nominal rate · (1 + ppm·1e-6).
struct ClockCalibration {
    double ppm = 0.0;
    double ppmUncertainty = 0.0;
};

/// Frames per second. **Range** 8 000 to 192 000 Hz for sound that is analysed.
class SampleRate {
public:
    constexpr SampleRate() = default;

    constexpr explicit SampleRate(double hz) : hz_(hz) {}

    [[nodiscard]] constexpr double hz() const { return hz_; }

    [[nodiscard]] constexpr SampleRate corrected(ClockCalibration clock) const {
        return SampleRate(hz_ * (1.0 + clock.ppm * 1e-6));
    }

    [[nodiscard]] constexpr Seconds duration(FrameCount frames) const {
        return Seconds(static_cast<double>(frames.value()) / hz_);
    }

    /// Rounds to the nearest frame.
    [[nodiscard]] constexpr FrameCount frames(Seconds time) const {
        const double exact = time.count() * hz_;
        return FrameCount(static_cast<std::int64_t>(exact < 0.0 ? exact - 0.5 : exact + 0.5));
    }

    constexpr auto operator<=>(const SampleRate&) const = default; // NOLINT(modernize-use-nullptr)

    /// The very same rate.
    friend constexpr bool operator==(SampleRate a, SampleRate b) {
        return !(a.hz_ < b.hz_) && !(b.hz_ < a.hz_);
    }

private:
    double hz_ = 48000.0;
};

} // namespace quillbench
