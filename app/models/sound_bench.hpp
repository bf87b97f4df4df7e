#pragma once

#include "app/models/choices.hpp"
#include "audio/audio_source.hpp"
#include "core/support/result.hpp"
#include "core/virtual/virtual_instrument.hpp"

#include <QString>
#include <memory>

namespace quillbench {

class AnalysisEngine;
class PlaybackStream;
class SoundWorker;
class VirtualSource;

/// Owns the source of sound and the engine that listens to it; one at a time. **Thread** GUI.
class SoundBench {
public:
    SoundBench();
    SoundBench(const SoundBench&) = delete;
    SoundBench& operator=(const SoundBench&) = delete;
    ~SoundBench();

    /// How fast recordings are heard from the next listenTo() on; at first as they sounded.
    void setPaceOfRecordings(Pace pace) { paceOfRecordings_ = pace; }

    /// Listens to a microphone or a recording. **Errors** a file that cannot be read; a device's trouble shows in the
    /// engine's state. The former source is stopped first either way.
    [[nodiscard]] Result<void>
    listenTo(const SourceChoice& choice, const InputChoice& input, const ClockCalibration& clock);

    /// Listens to a virtual instrument, and plays it where there is a loudspeaker.
    [[nodiscard]] Result<void> listenTo(const Instrument& instrument,
                                        const VirtualSettings& settings);

    void stop();

    /// The sound of a microphone, or of a recording as fast as it is taken, apart from what is listened to. **Range**
    /// not the virtual instrument. **Errors** a file that cannot be read.
    [[nodiscard]] Result<std::shared_ptr<AudioSource>> soundOf(const SourceChoice& choice,
                                                               const InputChoice& input);

    /// Keeps the virtual instrument from the loudspeaker, while something else is heard there; it goes on by the clock.
    void hush(bool hushed);

    /// Null before the first listenTo().
    [[nodiscard]] AnalysisEngine* engine() const { return engine_.get(); }

    /// Null unless the virtual instrument sounds.
    [[nodiscard]] VirtualSource* virtualSource() const { return virtual_.get(); }

    [[nodiscard]] SampleRate rate() const;

    /// **Thread** any ordinary thread.
    [[nodiscard]] SoundWorker& worker() { return *worker_; }

private:
    [[nodiscard]] Result<std::shared_ptr<AudioSource>>
    open(const SourceChoice& choice, const InputChoice& input, Pace pace);
    [[nodiscard]] Result<void> begin(std::shared_ptr<AudioSource> source,
                                     const ClockCalibration& clock);

    Pace paceOfRecordings_ = Pace::RealTime;
    std::unique_ptr<SoundWorker> worker_;
    std::shared_ptr<PlaybackStream> playback_;
    std::shared_ptr<AudioSource> source_;
    std::shared_ptr<VirtualSource> virtual_;
    std::unique_ptr<AnalysisEngine> engine_;
};

} // namespace quillbench
