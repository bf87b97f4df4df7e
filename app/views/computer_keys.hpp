#pragma once

#include "core/instrument/instrument.hpp"

#include <optional>

namespace quillbench {

class TuningModel;

/// Semitones above the lowest key of the octave that is tuned, for a key of the computer's keyboard (Qt::Key): the
/// row Z S X D C V G B H N J M is one octave, the row Q 2 W 3 E R 5 T 6 Y 7 U I the next.
[[nodiscard]] std::optional<int> noteOfComputerKey(int key);

/// The note that many semitones above the C at or below the octave's lowest key.
[[nodiscard]] Note chromaticAbove(int semitones, const TuningModel& tuning);

} // namespace quillbench
