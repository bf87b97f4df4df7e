#pragma once

#include "app/models/tuning_model.hpp"
#include "app/places/action/action_pictures.hpp"
#include "app/places/action/damper_listener.hpp"
#include "app/places/action/press_listener.hpp"
#include "app/places/action/sitting.hpp"
#include "audio/analysis_engine.hpp"
#include "core/analysis/snapshot.hpp"

#include <QObject>
#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <vector>

namespace quillbench {

/// What the Action place hears of the instrument: it follows the key that is played, takes the last seconds of sound
/// when a pluck is over, and keeps what the core makes of them. One instrument, one sitting; another instrument begins
/// anew. **Thread** GUI.
class ActionModel : public QObject {
    Q_OBJECT

public:
    using SoundBetween = std::function<KeptSound(FrameIndex, FrameIndex)>;

    explicit ActionModel(TuningModel& tuning, QObject* parent = nullptr);
    ~ActionModel() override;

    /// Where the last seconds of sound are had from. May return nothing.
    void setSound(SoundBetween sound);

    /// Frames count anew: the source changed. What was measured stays.
    void sourceChanged();

    void choose(ActionTask task);

    [[nodiscard]] ActionTask task() const { return task_; }

    /// The microphone stands half a metre from where it stood (or back again): plucks are kept apart from now on.
    void setMicrophoneMoved(bool moved);

    [[nodiscard]] bool microphoneMoved() const { return place_ != 0; }

    /// Forgets what this task measured with the registers that are on.
    void beginAgain();

    /// What the analysis should listen for here: every string that may sound, none more than another.
    [[nodiscard]] std::shared_ptr<const AnalysisTarget> target() const;

    /// The last word on a pluck.
    void hear(const StringReading& reading);

    /// Sound went on; what has waited long enough is listened to.
    void advance(const AnalysisSnapshot& snapshot);

    /// Waits for what is still being listened to on another thread; the next advance() has it.
    void waitForPresses() const;

    [[nodiscard]] const TuningModel& tuning() const { return tuning_; }

    /// The register that is on, where it is one alone.
    [[nodiscard]] std::optional<std::size_t> registerAlone() const;

    /// Of the register that is on; nothing heard where none is on alone.
    [[nodiscard]] EvennessReport evenness() const;
    /// Of every other register that was played alone in this sitting.
    [[nodiscard]] std::map<std::size_t, EvennessReport> otherRegisters(std::size_t reg) const;
    [[nodiscard]] DampingMap damping() const;
    /// Of the rows that are on, on the manual that is played.
    [[nodiscard]] StaggerMap stagger() const;
    /// The last of each key with the register that is on.
    [[nodiscard]] std::map<std::size_t, RepetitionReading> repetition() const;

    /// Keys on which every register that is on was heard alone.
    [[nodiscard]] std::size_t keysKnownAlone() const;

    /// The registers on the manual that is played, each with its intended travel.
    [[nodiscard]] std::vector<StaggerRow> rowsOn() const;

    /// The key heard last.
    [[nodiscard]] std::optional<std::size_t> heardKey() const { return heardKey_; }

    /// What became of the last thing that was played, for the player; may be empty.
    [[nodiscard]] const QString& lastWords() const { return lastWords_; }

Q_SIGNALS:
    /// Something was measured, or what is looked at changed.
    void changed();

private:
    struct Group;
    void forgetInstrument();
    void keepVoice(const StringReading& reading, std::size_t key, std::size_t reg);
    void keepSolo(const StringReading& reading, std::size_t reg);
    void awaitDamper(const StringReading& reading, std::size_t key, std::size_t reg);
    void hearDampers();
    /// A pluck at this frame belongs to the press or the row of strokes that is played.
    void group(FrameIndex pluck);
    void dropGroup();
    void hearGroup();
    void hearSlowPress(std::size_t key, KeptSound sound);
    void takePresses();
    void takeDampers();
    void hearStrokes(std::size_t key, const KeptSound& sound);
    [[nodiscard]] bool knocksOnly(std::size_t key, const RepetitionReading& reading) const;
    void say(const QString& words);
    [[nodiscard]] std::optional<std::size_t> keyOfCourse(std::size_t course) const;
    /// The key that brought a sound, by the lowest strings that are on.
    [[nodiscard]] std::optional<std::size_t>
    keyBy(const KeptSound& sound, FrameIndex begins, FrameIndex sounds) const;

    TuningModel& tuning_;
    SoundBetween sound_;
    ActionTask task_ = ActionTask::Evenness;
    int place_ = 0;
    QString instrument_;
    ActionSitting sitting_;
    DamperListener damperListener_;
    PressListener pressListener_;
    std::unique_ptr<Group> group_;

    struct Strokes {
        std::size_t key = 0;
        FrameIndex upTo;
        double loudest = 0.0; ///< dB, as RepeatedPluck::level
    };

    std::optional<Strokes> strokesHeard_; ///< the row of strokes heard last
    FrameIndex groupedUpTo_;              ///< plucks up to here belong to no group any more
    std::uint64_t pluckSeen_ = 0;
    FrameIndex now_;
    std::optional<std::size_t> heardKey_;
    QString lastWords_;
};

} // namespace quillbench
