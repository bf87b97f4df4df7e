#include "audio/analysis_engine.hpp"

#include "audio/recorder.hpp"
#include "audio/snapshot_cell.hpp"
#include "audio/sound_memory.hpp"
#include "audio/thread_role.hpp"
#include "core/analysis/analyser.hpp"
#include "core/support/contract.hpp"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <condition_variable>
#include <exception>
#include <limits>
#include <mutex>
#include <span>
#include <thread>
#include <utility>

namespace quillbench {
namespace {

// The callback must not wake a thread, so this one looks: half a block's time at 48 kHz.
constexpr auto kLookEvery = std::chrono::milliseconds(5);
// Nothing sounds: the beginning of the next pluck may wait a little. Its first reading, for which 0.1 s of it must be
// there, does not notice: what is louder than the room is followed at once.
constexpr auto kLookInQuiet = std::chrono::milliseconds(100);
constexpr auto kLookWithoutSound = std::chrono::milliseconds(20);
constexpr float kLouderThanRoom =
    3.0F; // peak of a block over the usual one; common practice, no source
constexpr float kRoomFollows = 0.02F; // of a block's peak, so within some tenths of a second
constexpr Seconds kFollowedFor{0.3};  // by then it is a pluck, or was a knock
constexpr auto kHearAfterStop = std::chrono::milliseconds(500);

} // namespace

struct AnalysisEngine::Body {
    Body(std::shared_ptr<AudioSource> from, ClockCalibration clock)
        : source(std::move(from)),
          analyser(source->sampleRate(), clock),
          memory(static_cast<std::size_t>(source->sampleRate().frames(kKept).value())) {}

    std::shared_ptr<AudioSource> source;

    // Of the thread that listens.
    Analyser analyser;
    std::optional<FrameIndex> expected; // none before the first block
    EnginePhase shownPhase = EnginePhase::Idle;
    bool sounding = false;   // as the last snapshot said
    float room = 0.0F;       // usual peak of a block while nothing sounds
    FrameIndex followedUpTo; // something louder than the room began
    bool followedBefore = false;

    std::mutex targetMutex;
    std::shared_ptr<const AnalysisTarget> target;
    bool targetIsNew = false;

    SnapshotCell<AnalysisSnapshot> newest;

    mutable std::mutex eventMutex;
    std::vector<EngineEvent> events;
    std::optional<Error> fault; // of the engine itself

    std::mutex recorderMutex;
    std::unique_ptr<Recorder> recorder;

    mutable std::mutex memoryMutex;
    SoundMemory memory;

    std::mutex newsMutex;
    std::function<void()> news;

    std::mutex sleepMutex;
    std::condition_variable_any wake;
    std::jthread thread; // last: joined before the rest goes

    void log(EngineEvent event) {
        {
            const std::lock_guard lock(eventMutex);
            events.push_back(std::move(event));
        }
        tellNews();
    }

    void tellNews() {
        const std::lock_guard lock(newsMutex);
        if (news) {
            news();
        }
    }

    /// Where it sleeps until the source goes on. Not between its look at the source and its sleep.
    void goOn() {
        { const std::lock_guard lock(sleepMutex); }
        wake.notify_one();
        tellNews();
    }

    void takeTarget() {
        std::shared_ptr<const AnalysisTarget> fresh;
        {
            const std::lock_guard lock(targetMutex);
            if (!targetIsNew) {
                return;
            }
            targetIsNew = false;
            fresh = target;
        }
        analyser.setTarget(std::move(fresh));
    }

    void record(const SoundBlock& block) {
        const std::lock_guard lock(recorderMutex);
        if (!recorder) {
            return;
        }
        recorder->push(block);
        if (auto trouble = recorder->trouble()) {
            recorder.reset();
            log(RecordingEvent{*trouble});
        }
    }

    /// A device that delivers what cannot be sound has lost sound.
    static void mend(AudioBlock& audio) {
        for (float& sample : std::span(audio.samples).first(audio.count)) {
            if (!isSound(sample)) {
                sample = 0.0F;
                audio.discontinuity = true;
            }
        }
    }

    void hear(AudioBlock& audio) {
        mend(audio);
        const SoundBlock block = audio.view();
        if (expected && (block.discontinuity || block.first != *expected)) {
            GapEvent gap{block.first, std::nullopt};
            if (block.first > *expected) {
                gap.lost = block.first - *expected;
            }
            log(gap);
        }
        expected = block.first + FrameCount(static_cast<std::int64_t>(audio.count));
        listenForMore(block);
        record(block);
        {
            const std::lock_guard lock(memoryMutex);
            memory.push(block);
        }
        takeTarget();
        if (auto snapshot = analyser.push(block)) {
            if (snapshot->finished) {
                log(*snapshot->finished);
            }
            if (snapshot->finishedPair) {
                log(*snapshot->finishedPair);
            }
            sounding = snapshot->sounding;
            newest.set(std::make_shared<const AnalysisSnapshot>(*snapshot));
        }
    }

    void listenForMore(const SoundBlock& block) {
        float peak = 0.0F;
        for (const float sample : block.samples) {
            peak = std::max(peak, std::fabs(sample));
        }
        if (peak > kLouderThanRoom * room) {
            followedUpTo = block.first + source->sampleRate().frames(kFollowedFor);
        }
        room += kRoomFollows * (peak - room);
    }

    /// How long the next look may wait.
    [[nodiscard]] std::chrono::milliseconds restAfter(EnginePhase phase) const {
        if (phase != EnginePhase::Running) {
            return kLookWithoutSound;
        }
        return follows() ? kLookEvery : kLookInQuiet;
    }

    [[nodiscard]] bool follows() const {
        return sounding || (expected && *expected < followedUpTo);
    }

    void tellWhatBegins() {
        const bool followed = std::exchange(followedBefore, follows());
        if (followedBefore && !followed) {
            tellNews();
        }
    }

    void sleep(EnginePhase phase, bool nothingComes, const std::stop_token& stop) {
        std::unique_lock lock(sleepMutex);
        if (nothingComes) {
            wake.wait(lock, stop, [this] { return !source->rests(); });
        } else {
            wake.wait_for(lock, stop, restAfter(phase), [] { return false; });
        }
    }

    FrameCount hearWhatIsThere(FrameCount atMost, const std::stop_token& stop) {
        FrameCount heard;
        AudioBlock block;
        while (heard < atMost && !stop.stop_requested() && source->take(block)) {
            hear(block);
            heard = heard + FrameCount(static_cast<std::int64_t>(block.count));
        }
        return heard;
    }

    EnginePhase noteState() {
        EngineState state = source->state();
        const EnginePhase phase = state.phase;
        if (phase != shownPhase) {
            shownPhase = phase;
            log(StateEvent{std::move(state)});
        }
        return phase;
    }

    void run(const std::stop_token& stop) {
        setThreadRole(ThreadRole::Engine);
        constexpr FrameCount kAll(std::numeric_limits<std::int64_t>::max());
        try {
            while (!stop.stop_requested()) {
                // The state is read first: what came before an end is then still heard.
                const EnginePhase phase = noteState();
                const bool rests = source->rests(); // before: what came until then is still heard
                const FrameCount heard = hearWhatIsThere(kAll, stop);
                tellWhatBegins();
                if (phase == EnginePhase::Ended || phase == EnginePhase::Failed) {
                    return;
                }
                if (heard == FrameCount(0) || !sounding) {
                    sleep(phase, rests && heard == FrameCount(0), stop);
                }
            }
            // What came before the stop is still heard, unless that is much: a slow computer may be behind.
            const auto end = std::chrono::steady_clock::now() + kHearAfterStop;
            while (std::chrono::steady_clock::now() < end &&
                   hearWhatIsThere(FrameCount(1), std::stop_token()) > FrameCount(0)) {
            }
        } catch (const std::exception& error) {
            const Error trouble{ErrorCode::Environment,
                                std::string("the analysis stopped by an internal fault (") +
                                    error.what() + "): start it again",
                                {}};
            {
                const std::lock_guard lock(eventMutex);
                fault = trouble;
            }
            log(StateEvent{EngineState{EnginePhase::Failed, trouble}});
        }
    }

    void endRecording() {
        std::unique_ptr<Recorder> ended;
        {
            const std::lock_guard lock(recorderMutex);
            ended.swap(recorder);
        }
        if (ended) {
            if (const auto frames = ended->finish(); !frames) {
                log(RecordingEvent{frames.error()});
            }
        }
    }
};

AnalysisEngine::AnalysisEngine(std::shared_ptr<AudioSource> source, ClockCalibration clock) {
    EXPECTS(source != nullptr);
    body_ = std::make_unique<Body>(std::move(source), clock);
}

AnalysisEngine::~AnalysisEngine() {
    stop();
}

Result<void> AnalysisEngine::start() {
    Body& body = *body_;
    if (body.thread.joinable()) {
        return {};
    }
    body.source->whenItGoesOn([&body] { body.goOn(); });
    if (auto started = body.source->start(); !started) {
        return started;
    }
    {
        const std::lock_guard lock(body.eventMutex);
        body.fault.reset();
    }
    body.thread = std::jthread([&body](const std::stop_token& stop) { body.run(stop); });
    return {};
}

void AnalysisEngine::stop() {
    body_->source->stop();
    body_->source->whenItGoesOn({});
    body_->thread = std::jthread();
    body_->endRecording();
}

FrameCount AnalysisEngine::advance(FrameCount frames) {
    EXPECTS(!body_->thread.joinable());
    if (auto started = body_->source->start(); !started) {
        body_->log(StateEvent{EngineState{EnginePhase::Failed, started.error()}});
        return FrameCount(0);
    }
    body_->noteState();
    const FrameCount heard = body_->hearWhatIsThere(frames, std::stop_token());
    body_->noteState();
    return heard;
}

void AnalysisEngine::setTarget(std::shared_ptr<const AnalysisTarget> target) {
    const std::lock_guard lock(body_->targetMutex);
    body_->target = std::move(target);
    body_->targetIsNew = true;
}

std::shared_ptr<const AnalysisSnapshot> AnalysisEngine::snapshot() const {
    return body_->newest.get();
}

bool AnalysisEngine::rests() const {
    return body_->source->rests();
}

void AnalysisEngine::whenNews(std::function<void()> call) {
    const std::lock_guard lock(body_->newsMutex);
    body_->news = std::move(call);
}

std::vector<EngineEvent> AnalysisEngine::drainEvents() {
    std::vector<EngineEvent> drained;
    const std::lock_guard lock(body_->eventMutex);
    drained.swap(body_->events);
    return drained;
}

EngineState AnalysisEngine::state() const {
    {
        const std::lock_guard lock(body_->eventMutex);
        if (body_->fault) {
            return {EnginePhase::Failed, body_->fault};
        }
    }
    return body_->source->state();
}

KeptSound AnalysisEngine::sound(FrameIndex from, FrameIndex to) const {
    KeptSound kept{from, body_->source->sampleRate(), {}};
    const std::lock_guard lock(body_->memoryMutex);
    kept.first = std::max(from, body_->memory.first());
    kept.samples = body_->memory.copy(kept.first, to);
    return kept;
}

Result<void> AnalysisEngine::startRecording(const std::filesystem::path& path) {
    const std::lock_guard lock(body_->recorderMutex);
    if (body_->recorder) {
        return failure(ErrorCode::BadArgument,
                       "the sound is being kept already: end that recording first");
    }
    auto recorder = Recorder::begin(path, body_->source->sampleRate());
    if (!recorder) {
        return Unexpected<Error>(recorder.error());
    }
    body_->recorder = std::move(*recorder);
    return {};
}

Result<FrameCount> AnalysisEngine::stopRecording() {
    std::unique_ptr<Recorder> ended;
    {
        const std::lock_guard lock(body_->recorderMutex);
        ended.swap(body_->recorder);
    }
    if (!ended) {
        return failure(ErrorCode::BadArgument, "no sound is being kept: begin a recording first");
    }
    return ended->finish();
}

} // namespace quillbench
