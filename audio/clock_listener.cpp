#include "audio/clock_listener.hpp"

#include "audio/source_reader.hpp"
#include "audio/tone_follower.hpp"

#include <mutex>
#include <utility>

namespace quillbench {
namespace {

constexpr Seconds kJudgeEvery{0.5};
constexpr Seconds kShortestReading{5.0};

} // namespace

struct ClockListener::Body {
    Body(std::shared_ptr<AudioSource> from, const TrustedTone& tone)
        : follower(tone, from->sampleRate()),
          reader(std::move(from),
                 {[this](const AudioBlock& block, bool gap) { hear(block, gap); },
                  [this](const EngineState& state) { show(state); }}) {}

    // Of the thread that listens.
    ToneFollower follower;
    Seconds judgedAt{0};
    ClockHearing now;

    mutable std::mutex mutex;
    ClockHearing shown;

    void restart() {
        follower.restart();
        judgedAt = Seconds(0);
        now.steady = Seconds(0);
    }

    void hear(const AudioBlock& block, bool gap) {
        if (gap) {
            restart();
        }
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

    SourceReader reader; // last: its thread is joined before the rest goes
};

ClockListener::ClockListener(std::shared_ptr<AudioSource> source, const TrustedTone& tone)
    : body_(std::make_unique<Body>(std::move(source), tone)) {
}

ClockListener::~ClockListener() = default;

ClockHearing ClockListener::hearing() const {
    const std::lock_guard lock(body_->mutex);
    return body_->shown;
}

} // namespace quillbench
