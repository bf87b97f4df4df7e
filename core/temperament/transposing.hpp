#pragma once

#include "core/temperament/beat_table.hpp"
#include "core/temperament/temperament.hpp"

#include <vector>

namespace quillbench {

/// A keyboard that slides: at another position every key plays the string of a neighbouring key. Strings keep
/// their tuning and their identity; keys move. Positions count semitones of sounding pitch, as in
/// Instrument::positions. The scale holds at the position where it is tuned.
///
/// The key whose string `key` plays when the keyboard stands `semitones` higher than it was tuned.
[[nodiscard]] Note stringUnderKey(const Temperament& temperament, const Note& key, int semitones);

/// What a key sounds there. Vallotti tuned at 415 Hz and moved up a semitone: A4 sounds 441.17 Hz.
[[nodiscard]] Hertz pitchAtPosition(const TunedScale& scale, const Note& key, int semitones);

/// How a tuning fares at one position that is played.
struct PositionReport {
    int position = 0;
    Hertz a4;                           ///< what the key A4 sounds
    std::vector<ThirdSize> majorThirds; ///< named by the keys played, widest first
};

/// One report for each position played, the instrument being tuned at `tunedAt`.
[[nodiscard]] std::vector<PositionReport>
positionReports(const TunedScale& scale, int tunedAt, const std::vector<int>& played);

} // namespace quillbench
