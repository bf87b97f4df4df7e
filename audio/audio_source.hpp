#pragma once

#include "audio/audio_block.hpp"
#include "audio/engine_state.hpp"
#include "core/support/result.hpp"
#include "core/units/frames.hpp"

#include <functional>

namespace quillbench {

/// Whether a source delivers as time passes or as fast as its blocks are taken.
enum class Pace { RealTime, AsTaken };

/// Where sound comes from: a microphone, a file or the virtual instrument. Blocks come in order; a jump of
/// AudioBlock::first or a discontinuity flag is a gap.
/// **Thread** one thread takes; start, stop and state may be called from any ordinary thread.
class AudioSource {
public:
    AudioSource() = default;
    AudioSource(const AudioSource&) = delete;
    AudioSource& operator=(const AudioSource&) = delete;
    virtual ~AudioSource() = default;

    /// Nominal; what a device really keeps is its ClockCalibration.
    [[nodiscard]] virtual SampleRate sampleRate() const = 0;

    /// Begins to deliver. A device opens in the background: its trouble shows in state().
    [[nodiscard]] virtual Result<void> start() = 0;

    /// Ends delivery; blocks already there may still be taken. Returns within two seconds whatever the device does.
    virtual void stop() = 0;

    /// The next block, if one is there. Never waits for a device.
    [[nodiscard]] virtual bool take(AudioBlock& block) = 0;

    [[nodiscard]] virtual EngineState state() const = 0;

    /// Nothing comes, and its frames stand still, until something is done to it: nobody needs to look. **Thread** any.
    [[nodiscard]] virtual bool rests() const { return false; }

    /// What is called each time it goes on after a rest, on a thread that may lock, when rests() is false already.
    /// **Range** before start(); what it uses outlives the source or the next call of this.
    virtual void whenItGoesOn(std::function<void()>&& /*call*/) {}
};

} // namespace quillbench
