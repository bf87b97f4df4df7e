#pragma once

#include "core/analysis/snapshot.hpp"
#include "core/analysis/sound_block.hpp"
#include "core/analysis/target.hpp"
#include "core/units/frames.hpp"

#include <memory>
#include <optional>

namespace quillbench {

/// The live ear: sound in, snapshots out. Pure and deterministic: what it says depends on the samples and targets
/// it was given, never on how the sound was cut into blocks.
/// **Real-time** one thread at a time; allocates in the constructor and in setTarget() only.
class Analyser {
public:
    /// **Range** rate 8 to 192 kHz.
    Analyser(SampleRate rate, ClockCalibration clock);
    ~Analyser();
    Analyser(Analyser&&) noexcept;
    Analyser& operator=(Analyser&&) noexcept;
    Analyser(const Analyser&) = delete;
    Analyser& operator=(const Analyser&) = delete;

    /// What to listen for from now on. A pluck whose string is known keeps the target it was recognised with.
    /// Null: nothing is recognised, the microphone is still watched.
    void setTarget(std::shared_ptr<const AnalysisTarget> target);

    /// Takes a block of any length. Snapshots are made every 33 ms of sound and when a pluck is first read or
    /// finished, at fixed frames; of several that fall into one block the last is returned. No finished
    /// reading is lost: while more than one waits, every call returns a snapshot with one of them. A gap
    /// (block.first is not the frame expected, or a discontinuity) ends the reading and starts afresh; it is
    /// counted.
    std::optional<AnalysisSnapshot> push(const SoundBlock& block);

private:
    struct Impl;
    std::unique_ptr<Impl> impl_;
};

} // namespace quillbench
