#pragma once

#include "core/support/random.hpp"
#include "core/units/mechanics.hpp"
#include "core/workflow/guidance.hpp"

#include <optional>

namespace quillbench {

/// The hand of somebody who does what the window asks: turns the pin by about what is asked for, never exactly,
/// and plucks again. Seeded.
class ScriptedPlayer {
public:
    /// **Range** spread 0 … 1: standard deviation of a turn as a part of it.
    ScriptedPlayer(std::uint64_t seed, double spread);

    /// How far to turn the pin before the next pluck; nothing: hand off the hammer.
    /// **Range** guidance of the step whose string is meant; degrees only where the guidance knows them.
    [[nodiscard]] std::optional<Degree> turn(const Guidance& guidance);

    /// The turn that the hand makes of one that was meant.
    [[nodiscard]] Degree meant(Degree turn);

private:
    Random random_;
    double spread_;
};

} // namespace quillbench
