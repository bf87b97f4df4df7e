#pragma once

#include "core/temperament/temperament.hpp"
#include "core/units/cents.hpp"
#include "core/units/hertz.hpp"

#include <bitset>
#include <optional>
#include <span>

namespace quillbench {

/// A held tone of another instrument.
struct HeardTone {
    Hertz pitch;       ///< > 0
    Cents uncertainty; ///< standard uncertainty, ≥ 0
};

/// Where another instrument stands.
struct HeardStandard {
    Hertz a4;              ///< of A alone, or where all twelve notes put it in the mean
    Cents uncertainty;     ///< of twelve with their scatter from the temperament
    std::bitset<12> notes; ///< heard, by their chroma, C = 0
    Cents
        scatter; ///< standard deviation of the twelve from the temperament; 0 before all were heard

    [[nodiscard]] bool ofTwelve() const { return notes.all(); }
};

/// The pitch of a′ that held tones tell: the first is an A of any octave, each later one the note that lies nearest by
/// twelve equal steps from it. Of a note heard several times the surest counts. All twelve in the mean, against the
/// temperament, once all were heard; before that A alone. **Range** temperament of twelve notes.
/// **Errors** nothing where there is no tone, or no A from `lowest` to `highest` comes of the first.
/// **Accuracy** mean: weights all notes alike, its uncertainty from the readings and the scatter over the root of twelve.
[[nodiscard]] std::optional<HeardStandard> heardStandard(std::span<const HeardTone> tones,
                                                         const Temperament& temperament,
                                                         Hertz lowest,
                                                         Hertz highest);

} // namespace quillbench
