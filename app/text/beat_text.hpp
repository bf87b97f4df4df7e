#pragma once

#include "core/analysis/pair_heard.hpp"
#include "core/instrument/instrument.hpp"
#include "core/units/beat_rate.hpp"

#include <QString>

namespace quillbench {

/// "1.3", "0.74": beats a second without sign, to a hundredth where they are known so well, else to a tenth.
[[nodiscard]] QString rateText(BeatRate beat, double uncertainty);

/// "± 0.02": rounded up, to the places of rateText.
[[nodiscard]] QString rateUncertainty(double uncertainty);

/// "wide", "narrow", "still", "wide or narrow?".
[[nodiscard]] QString directionText(BeatDirection direction);

/// "C3–G3", or "A3" for two strings of one key.
[[nodiscard]] QString
pairText(const Instrument& instrument, StringId lower, StringId upper, int position);

/// "fifth, 8′"; "unison, 8′ and second 8′".
[[nodiscard]] QString
pairDetail(const Instrument& instrument, IntervalKind kind, StringId lower, StringId upper);

/// What the target wants: "wanted: still", "wanted: 0.74 narrow".
[[nodiscard]] QString wantedText(BeatRate target);

/// Which string of a pair is brought to the other.
enum class PairTuned { Lower, Upper };

/// What to do with the string that is tuned. Never a way up before a fall.
[[nodiscard]] QString pairSentence(const Instrument& instrument,
                                   const PairReading& reading,
                                   BeatRate target,
                                   int position,
                                   PairTuned tuned);

} // namespace quillbench
