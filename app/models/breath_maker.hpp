#pragma once

#include "app/models/pictures.hpp"
#include "app/models/tuning_model.hpp"
#include "core/analysis/snapshot.hpp"

#include <QString>
#include <optional>

namespace quillbench {

/// Makes the picture of a pair from the snapshots. Its figures change no faster than a person reads: what they say is
/// held for four tenths of a second of sound. Deterministic: it counts the sound's own time. **Thread** GUI.
class BreathMaker {
public:
    /// Whether the last thing played was a pair (or a string of the pair of before): then the pair is shown.
    [[nodiscard]] bool pairAtHand(const AnalysisSnapshot* snapshot) const;

    /// **Range** model.ready().
    [[nodiscard]] BreathPicture make(const TuningModel& model, const AnalysisSnapshot* snapshot);

    /// The same in large figures.
    [[nodiscard]] const FiguresPicture& figures() const { return figures_; }

    /// What to do now.
    [[nodiscard]] const QString& sentence() const { return sentence_; }

    /// The string that is tuned between the two wires: how far it lies from where the target wants it.
    [[nodiscard]] const std::optional<SoundingWire>& wire() const { return wire_; }

private:
    void renewFigures(const TuningModel& model, const PairHeard& pair, BeatRate target);

    FiguresPicture figures_;
    QString sentence_;
    std::optional<SoundingWire> wire_;
    FrameIndex pluck_; ///< of the pair that the figures speak of
    FrameIndex changedAt_;
    bool said_ = false; ///< the figures speak of this pluck
    bool final_ = false;
};

/// What the temperament wants of a pair: its own beat, or none between strings of one key and in octaves.
/// **Range** model.ready().
[[nodiscard]] BeatRate targetBeat(const TuningModel& model, const PairHeard& pair);

} // namespace quillbench
