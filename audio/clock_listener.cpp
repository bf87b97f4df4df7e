#include "audio/clock_listener.hpp"

#include "audio/thread_role.hpp"
#include "audio/tone_follower.hpp"

#include <chrono>
#include <condition_variable>
#include <mutex>
#include <thread>
#include <utility>

namespace quillbench {
namespace {

constexpr auto kListenEvery = std::chrono::milliseconds(20);
constexpr Seconds kJudgeEvery{0.5};
constexpr Seconds kShortestReading{5.0};

} // namespace

struct ClockListener::Body {
    Body(std::shared_ptr<AudioSource> from, const TrustedTone& tone)
        : source(std::move(from)),
          follower(tone, source->sampleRate()) {}

    std::shared_ptr<AudioSource> source;

    // Of the thread that listens.
    ToneFollower follower;
    std::optional<FrameIndex> expected;
    Seconds judgedAt{0};
    ClockHearing now;

    mutable std::mutex mutex;
    ClockHearing shown;

    std::mutex sleepMutex;
    std::condition_variable_any wake;
    std::jthread thread; // last: joined before the rest goes

    void restart() {
        follower.restart();
        judgedAt = Seconds(0);
        now.steady = Seconds(0);
    }

    void hear(const AudioBlock& block) {
        if (expected && (block.discontinuity || block.first != *expected)) {
            restart();
        }
        expected = block.first + FrameCount(static_cast<std::int64_t>(block.count));
        follower.push({block.samples.data(), block.count});
        if (follower.length() - judgedAt >= kJudgeEvery) {
            judgedAt = follower.length();
            judge();
        }
    }

    void judge() {
        using Standing = ClockHearing::Standing;
        if (!follower.isSteady()) {
            now.standing = Standing::NotHeard;
            now.why = "it is too soft, its loudness varies, or it is not steady";
            restart();
            return;
        }
        now.steady = follower.length();
        if (now.steady < kShortestReading) {
            // A verdict stands until there is another.
            const bool judged = now.standing == Standing::WrongTone;
            if ((now.steady > kShortestReading / 2.0 && !judged) ||
                now.standing == Standing::Waiting) {
                now.standing = Standing::Following;
            }
            return;
        }
        const auto reading = follower.reading();
        if (!reading) {
            now.standing = Standing::WrongTone;
            now.why = reading.error().text;
            restart();
            return;
        }
        now.standing = Standing::Known;
        now.why.clear();
        if (!now.best || reading->ppmUncertainty <= now.best->ppmUncertainty) {
            now.best = *reading;
        }
    }

    void show(const EngineState& state) {
        now.source = state;
        const bool sounds =
            state.phase == EnginePhase::Running || state.phase == EnginePhase::Ended;
        if (!sounds) {
            now.standing = ClockHearing::Standing::Waiting;
        }
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
            wake.wait_for(lock, stop, kListenEvery, [] { return false; });
        }
    }
};

ClockListener::ClockListener(std::shared_ptr<AudioSource> source, const TrustedTone& tone)
    : body_(std::make_unique<Body>(std::move(source), tone)) {
    Body& body = *body_;
    if (const auto started = body.source->start(); !started) {
        body.shown.source = EngineState{EnginePhase::Failed, started.error()};
        return;
    }
    body.thread = std::jthread([&body](const std::stop_token& stop) { body.run(stop); });
}

ClockListener::~ClockListener() {
    body_->source->stop();
    body_->thread = std::jthread();
}

ClockHearing ClockListener::hearing() const {
    const std::lock_guard lock(body_->mutex);
    return body_->shown;
}

} // namespace quillbench
