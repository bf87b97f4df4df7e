#pragma once

#include "core/analysis/snapshot.hpp"
#include "core/units/cents.hpp"

#include <array>
#include <optional>

namespace quillbench {

/// How far single partials of a string sound from where its pitch and its stiffness put them: its two polarisations
/// and the bridge draw each a cent or two aside [Weinreich1977]. What beats in a unison or an octave is single partials.
struct PartialOffsets {
    struct Offset {
        Cents cents;
        Cents uncertainty; ///< one standard deviation
    };

    Cents pitch; ///< of the string then, from its own target
    std::array<std::optional<Offset>, 8>
        of; ///< [n − 1] for partial n; nothing where it was not heard well

    /// **Range** n ≥ 1.
    [[nodiscard]] std::optional<Offset> at(int n) const;

    [[nodiscard]] bool any() const;
};

/// From one reading; `inharmonicity` as the plan reckons with it. Nothing of a reading that is weak or short. An offset
/// and the pitch of the same reading together are surer than either: they are where that partial lies.
[[nodiscard]] PartialOffsets offsetsOf(const StringReading& reading, double inharmonicity);

} // namespace quillbench
