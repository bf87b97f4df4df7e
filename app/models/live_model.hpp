#pragma once

#include "audio/engine_state.hpp"
#include "core/analysis/snapshot.hpp"

#include <QElapsedTimer>
#include <QObject>
#include <QTimer>
#include <chrono>
#include <cstdint>
#include <memory>

namespace quillbench {

class AnalysisEngine;

/// Takes the newest snapshot from the analysis thirty times a second and says so once; twice a second while nothing
/// sounds, and not at all while the source rests: the engine's news bring it back at once. It stops by itself when the
/// source has ended or failed. **Thread** GUI.
class LiveModel : public QObject {
    Q_OBJECT

public:
    explicit LiveModel(QObject* parent = nullptr);
    ~LiveModel() override;

    /// Begins to look at an engine; null: stops. The engine must outlive this, or the next watch().
    void watch(AnalysisEngine* engine);

    /// It looks by itself, seldom or often.
    [[nodiscard]] bool running() const { return timer_.isActive(); }

    /// Null before the first.
    [[nodiscard]] const std::shared_ptr<const AnalysisSnapshot>& snapshot() const {
        return snapshot_;
    }

    /// The sound before this frame is in the snapshot; 0 before the first.
    [[nodiscard]] FrameIndex heardUpTo() const {
        return snapshot_ ? snapshot_->upTo : FrameIndex();
    }

    [[nodiscard]] const EngineState& state() const { return state_; }

    /// Looks now, as the timer does.
    void look();

    /// How many times the timer looked, how often it came more than half a frame late, and the longest that the
    /// window's thread was busy with something else.
    struct Frames {
        std::uint64_t shown = 0;
        std::uint64_t late = 0;
        std::chrono::milliseconds busiest{0};
    };

    [[nodiscard]] Frames frames() const { return frames_; }

    /// Less motion: what is shown is renewed about twice a second instead of thirty times.
    void setCalm(bool calm);

Q_SIGNALS:
    /// A new snapshot is there.
    void updated();
    /// The last word on one pluck.
    void readingFinished(const quillbench::StringReading& reading);
    /// The last word on two strings together.
    void pairFinished(const quillbench::PairReading& reading);
    void stateChanged();
    /// Sound was lost.
    void gapHeard();
    /// A recording stopped by itself.
    void recordingStopped(const quillbench::Error& error);

private:
    struct Door;
    void drain();
    void choosePace();
    void comeBack();

    std::shared_ptr<Door> door_; ///< to this thread; closed before this is gone
    AnalysisEngine* engine_ = nullptr;
    bool calm_ = false;
    int looksInQuiet_ = 0;
    QTimer timer_;
    QElapsedTimer sinceLook_;
    std::shared_ptr<const AnalysisSnapshot> snapshot_;
    EngineState state_;
    Frames frames_;
};

} // namespace quillbench
