#pragma once

#include "core/instrument/instrument.hpp"
#include "core/instrument/string.hpp"
#include "core/temperament/temperament.hpp"
#include "core/units/cents.hpp"
#include "core/units/mechanics.hpp"

#include <cstddef>
#include <optional>
#include <vector>

namespace quillbench {

/// One string where it is and where a change would take it.
struct StringChange {
    StringId string;
    Cents move; ///< + is up
    StringState now;
    StringState then;
};

/// What the strings of a choir pull together.
struct ChoirLoad {
    std::size_t choir = 0;
    Newton now;
    Newton then;
};

/// What a change of pitch or temperament would do to an instrument.
struct LoadChange {
    std::vector<StringChange> strings; ///< every string, choir by choir from the bass
    std::vector<ChoirLoad> choirs;
    Newton now; ///< all strings together, along the strings
    Newton then;
};

/// What the strings pull at one scale and at another, the keyboard at `position`.
/// **Accuracy** as stringState. **Errors** none: every material of an Instrument is known. **Thread** any; allocates.
[[nodiscard]] LoadChange loadChange(const Instrument& instrument,
                                    const TunedScale& now,
                                    const TunedScale& then,
                                    int position = 0);

/// The strings whose lower bound of the margin to breaking would be less than `margin` semitones, least first.
[[nodiscard]] std::vector<StringChange> stringsWithin(const LoadChange& change, double margin);

} // namespace quillbench
