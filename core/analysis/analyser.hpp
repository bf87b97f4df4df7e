#pragma once

#include "core/analysis/snapshot.hpp"
#include "core/analysis/sound_block.hpp"
#include "core/analysis/target.hpp"
#include "core/units/frames.hpp"

#include <memory>
#include <optional>

namespace quillbench {

/// The live ear: sound in, snapshots out. Pure and deterministic: what it says depends on the samples and
/// targets it was given, never on how the sound was cut into blocks.
/// **Thread** one at a time. Allocates in the constructor and in setTarget() only.
class Analyser {
public:
    /// **Range** rate 8 to 192 kHz.
    Analyser(SampleRate rate, ClockCalibration clock);
    ~Analyser();
    Analyser(Analyser&&) noexcept;
    Analyser& operator=(Analyser&&) noexcept;
    Analyser(const Analyser&) = delete;
    Analyser& operator=(const Analyser&) = delete;

    /// What to listen for from the next sample on. A pluck that is being read keeps the target it began with.
    /// Null: nothing is recognised, the microphone is still watched.
    void setTarget(std::shared_ptr<const AnalysisTarget> target);

    /// Takes a block of any length. A snapshot comes about every 33 ms of sound, at fixed frame indices; of
    /// several that fall into one block the last is returned. A finished reading is never lost: where more than one
    /// waits, each gets a snapshot of its own. A gap (block.first is not the frame expected, or a
    /// discontinuity) ends the reading in progress and starts afresh; it is counted.
    std::optional<AnalysisSnapshot> push(const SoundBlock& block);

private:
    struct Impl;
    std::unique_ptr<Impl> impl_;
};

} // namespace quillbench
