#pragma once

#include "audio/audio_source.hpp"
#include "audio/capture_callback.hpp"
#include "audio/capture_clock.hpp"

#include <memory>
#include <string>

namespace quillbench {

class SoundWorker;

/// Which sound to capture.
struct CaptureSettings {
    std::string device; ///< name from the device list; empty: the host's default input
    int channel = 0;    ///< counts from 0
    SampleRate rate;    ///< 44.1 to 192 kHz, one of the device's rates
};

/// A microphone through PortAudio. When the device is lost, start() stays in force: capture goes on by itself once it
/// is there again, and the frames that time has passed meanwhile are left out (a gap). See SoundWorker.
class CaptureStream final : public AudioSource {
public:
    /// `worker` must outlive this object.
    CaptureStream(SoundWorker& worker, const CaptureSettings& settings);
    ~CaptureStream() override;

    [[nodiscard]] SampleRate sampleRate() const override;
    [[nodiscard]] Result<void> start() override;
    void stop() override;
    [[nodiscard]] bool take(AudioBlock& block) override;
    [[nodiscard]] EngineState state() const override;

    [[nodiscard]] CaptureCounts counts() const;

    /// The device's clock against the computer's. **Thread** the one that takes.
    [[nodiscard]] const CaptureClock& clock() const;

private:
    class Core;
    SoundWorker& worker_;
    CaptureSettings settings_;
    std::shared_ptr<Core> core_;
    CaptureClock clock_;
    bool started_ = false;
};

} // namespace quillbench
