#pragma once

#include "core/analysis/snapshot.hpp"
#include "core/units/frames.hpp"

#include <memory>
#include <span>

namespace quillbench {

/// Watches what the microphone path does to the sound: level, noise floor, clipping, automatic gain, gating.
/// It looks at levels of 20 ms frames only, so that it costs next to nothing.
/// **Thread** one at a time; allocates in the constructor only.
class MicrophoneMonitor {
public:
    /// **Range** rate 8 to 192 kHz.
    explicit MicrophoneMonitor(SampleRate rate);
    ~MicrophoneMonitor();
    MicrophoneMonitor(MicrophoneMonitor&&) noexcept;
    MicrophoneMonitor& operator=(MicrophoneMonitor&&) noexcept;
    MicrophoneMonitor(const MicrophoneMonitor&) = delete;
    MicrophoneMonitor& operator=(const MicrophoneMonitor&) = delete;

    /// Takes the next samples, full scale ±1. The state does not depend on how they are cut.
    void push(std::span<const float> samples);

    /// A pluck happened; `samplesAgo` before the last sample taken.
    void pluck(FrameCount samplesAgo);

    /// Sound was lost here: levels on both sides are not compared with each other.
    void gap();

    [[nodiscard]] MicrophoneState state() const;

private:
    struct Impl;
    std::unique_ptr<Impl> impl_;
};

} // namespace quillbench
