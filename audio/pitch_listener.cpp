#include "audio/pitch_listener.hpp"

#include "audio/thread_role.hpp"

#include <chrono>
#include <cmath>
#include <condition_variable>
#include <mutex>
#include <thread>
#include <utility>

namespace quillbench {
namespace {

constexpr auto kHearEvery = std::chrono::milliseconds(20);
constexpr double kCentsPerMillionth = 1200.0 / 0.6931471805599453 * 1e-6;

} // namespace

struct PitchListener::Body {
    Body(std::shared_ptr<AudioSource> from, ClockCalibration calibration)
        : source(std::move(from)),
          clock(calibration),
          follower(source->sampleRate().corrected(calibration)) {}

    std::shared_ptr<AudioSource> source;
    ClockCalibration clock;

    // Of the thread that listens.
    SteadyPitchFollower follower;
    std::optional<FrameIndex> expected;
    PitchHearing now;

    mutable std::mutex mutex;
    PitchHearing shown;

    std::mutex sleepMutex;
    std::condition_variable_any wake;
    std::jthread thread; // last: joined before the rest goes

    [[nodiscard]] std::optional<SteadyPitch> reading() const {
        std::optional<SteadyPitch> tone = follower.reading();
        if (tone) {
            tone->uncertainty = Cents(
                std::hypot(tone->uncertainty.value(), clock.ppmUncertainty * kCentsPerMillionth));
        }
        return tone;
    }

    void hear(const AudioBlock& block) {
        if (expected && (block.discontinuity || block.first != *expected)) {
            follower.restart();
        }
        expected = block.first + FrameCount(static_cast<std::int64_t>(block.count));
        follower.push({block.samples.data(), block.count});
        const std::optional<SteadyPitch> tone = reading();
        if (now.tone && (!tone || tone->length < now.tone->length)) {
            now.before.push_back(*now.tone);
        }
        now.tone = tone;
        now.sounds = follower.sounds();
    }

    void show(const EngineState& state) {
        now.source = state;
        const std::lock_guard lock(mutex);
        shown = now;
    }

    void run(const std::stop_token& stop) {
        setThreadRole(ThreadRole::Engine);
        while (!stop.stop_requested()) {
            // The state is read first: what came before an end is then still heard.
            const EngineState state = source->state();
            AudioBlock block;
            while (!stop.stop_requested() && source->take(block)) {
                hear(block);
            }
            show(state);
            if (state.phase == EnginePhase::Ended || state.phase == EnginePhase::Failed) {
                return;
            }
            std::unique_lock lock(sleepMutex);
            wake.wait_for(lock, stop, kHearEvery, [] { return false; });
        }
    }
};

PitchListener::PitchListener(std::shared_ptr<AudioSource> source, ClockCalibration clock)
    : body_(std::make_unique<Body>(std::move(source), clock)) {
    Body& body = *body_;
    if (const auto started = body.source->start(); !started) {
        body.shown.source = EngineState{EnginePhase::Failed, started.error()};
        return;
    }
    body.thread = std::jthread([&body](const std::stop_token& stop) { body.run(stop); });
}

PitchListener::~PitchListener() {
    body_->source->stop();
    body_->thread = std::jthread();
}

PitchHearing PitchListener::hearing() const {
    const std::lock_guard lock(body_->mutex);
    return body_->shown;
}

} // namespace quillbench
