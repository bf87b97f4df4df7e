#pragma once

#include "core/instrument/instrument.hpp"

#include <QHash>
#include <QObject>
#include <optional>

class QKeyEvent;
class QTimer;

namespace quillbench {

class TuningModel;

/// Semitones above the lowest key of the octave that is tuned, for a key of the computer's keyboard: the row
/// Z S X D C V G B H N J M is one octave, the row Q 2 W 3 E R 5 T 6 Y 7 U I the next, by where they lie on an English
/// keyboard whatever is printed on them.
[[nodiscard]] std::optional<int> noteOfComputerKey(const QKeyEvent& event);

/// The note that many semitones above the C at or below the octave's lowest key.
[[nodiscard]] Note chromaticAbove(int semitones, const TuningModel& tuning);

/// Keys of the computer that are held to play. A held key repeats, and X tells each repeat as let go and pressed again,
/// not always marked: a key counts as let go where it is not pressed again within 30 ms. **Thread** GUI.
class HeldKeys : public QObject {
    Q_OBJECT

public:
    explicit HeldKeys(QObject* parent = nullptr);

    /// A key went down or up. **Range** event: a press or a release; id: whatever tells this key from others.
    void take(const QKeyEvent& event, int id);

Q_SIGNALS:
    void pressed(int id);
    void released(int id);

private:
    QHash<int, QTimer*> held_; ///< each runs once its key was let go
};

} // namespace quillbench
