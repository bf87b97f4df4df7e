#include "app/models/live_model.hpp"

#include "audio/analysis_engine.hpp"

#include <algorithm>
#include <mutex>
#include <variant>

namespace quillbench {

namespace {

constexpr int kFrameMilliseconds = 33;
constexpr int kCalmMilliseconds = 500;
constexpr int kQuietMilliseconds = 500;
constexpr int kLooksBeforeQuiet = 30; // a second

bool isOver(EnginePhase phase) {
    return phase == EnginePhase::Ended || phase == EnginePhase::Failed ||
           phase == EnginePhase::Idle;
}

} // namespace

/// Through it other threads ask this one to look.
struct LiveModel::Door {
    std::mutex mutex;
    LiveModel* model = nullptr;
    bool asked = false;

    void knock() {
        const std::lock_guard lock(mutex);
        if (model != nullptr && !asked) {
            asked = true;
            QMetaObject::invokeMethod(model, &LiveModel::comeBack, Qt::QueuedConnection);
        }
    }
};

LiveModel::LiveModel(QObject* parent) : QObject(parent), door_(std::make_shared<Door>()) {
    door_->model = this;
    timer_.setTimerType(Qt::PreciseTimer);
    timer_.setInterval(kFrameMilliseconds);
    connect(&timer_, &QTimer::timeout, this, [this] {
        ++frames_.shown;
        const qint64 passed = sinceLook_.isValid() ? sinceLook_.elapsed() : 0;
        const int wanted = timer_.interval();
        frames_.late += passed > wanted * 3 / 2 ? 1U : 0U;
        frames_.busiest = std::max(frames_.busiest, std::chrono::milliseconds(passed - wanted));
        sinceLook_.start();
        look();
        choosePace();
    });
}

LiveModel::~LiveModel() {
    const std::lock_guard lock(door_->mutex);
    door_->model = nullptr;
}

void LiveModel::comeBack() {
    {
        const std::lock_guard lock(door_->mutex);
        door_->asked = false;
    }
    if (engine_ == nullptr || isOver(state_.phase)) {
        return;
    }
    looksInQuiet_ = 0;
    sinceLook_.invalidate();
    timer_.start(calm_ ? kCalmMilliseconds : kFrameMilliseconds);
    look();
}

void LiveModel::setCalm(bool calm) {
    calm_ = calm;
    choosePace();
}

void LiveModel::choosePace() {
    const bool sounding = snapshot_ && snapshot_->sounding;
    looksInQuiet_ = sounding ? 0 : std::min(looksInQuiet_ + 1, kLooksBeforeQuiet);
    const int wanted = calm_                                ? kCalmMilliseconds
                       : looksInQuiet_ == kLooksBeforeQuiet ? kQuietMilliseconds
                                                            : kFrameMilliseconds;
    if (timer_.interval() != wanted) {
        timer_.setInterval(wanted);
        sinceLook_.invalidate();
    }
    if (looksInQuiet_ == kLooksBeforeQuiet && engine_ != nullptr && engine_->rests()) {
        timer_.stop();
    }
}

void LiveModel::watch(AnalysisEngine* engine) {
    engine_ = engine;
    snapshot_.reset();
    sinceLook_.invalidate();
    if (engine_ == nullptr) {
        timer_.stop();
        state_ = EngineState{};
        Q_EMIT stateChanged();
        return;
    }
    state_ = engine_->state();
    Q_EMIT stateChanged();
    looksInQuiet_ = 0;
    timer_.start(calm_ ? kCalmMilliseconds : kFrameMilliseconds);
    engine_->whenNews([door = door_] { door->knock(); });
}

void LiveModel::look() {
    if (engine_ == nullptr) {
        return;
    }
    // The state first: what was heard before the end is then surely drained below.
    EngineState state = engine_->state();
    drain();
    if (const auto newest = engine_->snapshot(); newest && newest != snapshot_) {
        snapshot_ = newest;
        Q_EMIT updated();
    }
    const bool changed = state.phase != state_.phase ||
                         state.error.has_value() != state_.error.has_value() ||
                         (state.error && state.error->text != state_.error->text);
    if (changed) {
        state_ = std::move(state);
        Q_EMIT stateChanged();
    }
    if (isOver(state_.phase)) {
        timer_.stop();
    }
}

void LiveModel::drain() {
    for (const EngineEvent& event : engine_->drainEvents()) {
        if (const auto* reading = std::get_if<StringReading>(&event)) {
            Q_EMIT readingFinished(*reading);
        } else if (const auto* pair = std::get_if<PairReading>(&event)) {
            Q_EMIT pairFinished(*pair);
        } else if (std::holds_alternative<GapEvent>(event)) {
            Q_EMIT gapHeard();
        } else if (const auto* recording = std::get_if<RecordingEvent>(&event)) {
            Q_EMIT recordingStopped(recording->error);
        }
    }
}

} // namespace quillbench
