#pragma once

#include "core/instrument/instrument.hpp"

#include <cstddef>
#include <optional>
#include <vector>

namespace quillbench {

/// How the instrument stands so that certain choirs are heard from one key, and no others.
struct Drawing {
    Registration registration;
    std::size_t manual = 0;          ///< whose keys are played
    std::vector<std::size_t> choirs; ///< that sound, as asked for
    std::vector<std::size_t> felt; ///< would sound along: felt between their strings silences them
    std::optional<std::size_t>
        otherManual; ///< no one manual plays them all: the rest are played here at the same time

    bool operator==(const Drawing&) const = default;
};

/// The drawing with the least felt, then without a second manual, then without the coupler. A row of jacks at the
/// nut is left off where another row plucks the same strings. **Range** choirs not empty, each < instrument.choirs and
/// plucked by some row. Rows that cannot be withdrawn stay on.
[[nodiscard]] Drawing
drawingFor(const Instrument& instrument, const std::vector<std::size_t>& choirs, int position = 0);

/// Felt between the strings of every choir that does not sound and whose dampers rise with the keys that are played:
/// none of them rings along. **Range** drawing as drawingFor() gives it.
[[nodiscard]] Drawing withFeltOnSilenced(const Instrument& instrument, Drawing drawing);

/// How much trouble a drawing is, for comparing two ways to hear the same thing; 0 is none.
[[nodiscard]] int troubleOf(const Drawing& drawing);

} // namespace quillbench
