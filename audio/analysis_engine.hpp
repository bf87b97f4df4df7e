#pragma once

#include "audio/audio_source.hpp"
#include "audio/engine_state.hpp"
#include "core/analysis/snapshot.hpp"
#include "core/analysis/target.hpp"
#include "core/support/result.hpp"
#include "core/units/frames.hpp"

#include <filesystem>
#include <functional>
#include <memory>
#include <optional>
#include <variant>
#include <vector>

namespace quillbench {

/// Sound was lost before frame `at`; `lost` is empty where the device did not say how much.
struct GapEvent {
    FrameIndex at;
    std::optional<FrameCount> lost;
};

/// The source changed its state.
struct StateEvent {
    EngineState state;
};

/// A recording stopped by itself (disk full, …).
struct RecordingEvent {
    Error error;
};

/// What must not be missed, in the order in which it happened. A reading here is the last word on its pluck or pair.
using EngineEvent = std::variant<StringReading, PairReading, GapEvent, StateEvent, RecordingEvent>;

/// A copy of sound that was heard.
struct KeptSound {
    FrameIndex first;
    SampleRate rate;
    std::vector<float> samples;
};

/// Takes sound from a source, listens, and shows what it hears. Live and batch are this one engine.
/// **Thread** start() runs it on a thread of its own; or advance() does the same work on the caller's. Everything else
/// from any ordinary thread.
class AnalysisEngine {
public:
    explicit AnalysisEngine(std::shared_ptr<AudioSource> source, ClockCalibration clock = {});
    AnalysisEngine(const AnalysisEngine&) = delete;
    AnalysisEngine& operator=(const AnalysisEngine&) = delete;
    ~AnalysisEngine();

    /// Starts the source and the thread. **Errors** as the source's.
    [[nodiscard]] Result<void> start();

    /// Stops the source, hears what is already there (half a second's work at most), ends a recording. Returns within three seconds.
    void stop();

    /// Instead of start(): takes blocks until `frames` more have been heard or none is there; says how many were.
    FrameCount advance(FrameCount frames);

    /// What to listen for from the next block on; null: nothing in particular.
    void setTarget(std::shared_ptr<const AnalysisTarget> target);

    /// The newest; null before the first.
    [[nodiscard]] std::shared_ptr<const AnalysisSnapshot> snapshot() const;

    /// Takes the events since the last call. Called by the window's timer.
    [[nodiscard]] std::vector<EngineEvent> drainEvents();

    [[nodiscard]] EngineState state() const;

    /// The source rests: nothing new comes until something is done to it.
    [[nodiscard]] bool rests() const;

    /// What is called when something begins to sound after quiet, when there is a new event, and when the source goes
    /// on after a rest: on a thread of the engine or of the source, seldom, never after the next call of this. It must
    /// not call the engine.
    void whenNews(std::function<void()> call);

    /// So much of what was heard last is kept in memory.
    static constexpr Seconds kKept{12.0};

    /// A copy of the sound from one frame up to another, as much of it as was heard without a gap and is kept; empty
    /// where none is. Nothing of it leaves the memory.
    [[nodiscard]] KeptSound sound(FrameIndex from, FrameIndex to) const;

    /// Keeps what is heard from now on as FLAC. **Errors** as Recorder::begin; BadArgument while one is being kept.
    [[nodiscard]] Result<void> startRecording(const std::filesystem::path& path);

    /// Closes the file; says how many frames it holds. **Errors** as Recorder::finish; BadArgument where none is kept.
    [[nodiscard]] Result<FrameCount> stopRecording();

private:
    struct Body;
    std::unique_ptr<Body> body_;
};

} // namespace quillbench
