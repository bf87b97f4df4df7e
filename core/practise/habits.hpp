#pragma once

#include "core/practise/progress.hpp"
#include "core/units/cents.hpp"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <vector>

namespace quillbench {

/// How far one interval was left from what was wanted, by ear; + = wide.
struct SettingLeft {
    std::int64_t sitting = 0; ///< the same number for what was set in one sitting
    Cents left;
    Cents uncertainty; ///< of the reading, one standard deviation
};

/// What an ear does over several sittings.
struct EarHabit {
    Cents mean; ///< what it leaves on the whole
    Cents low;  ///< 90 % credible interval of the mean
    Cents high;
    Cents scatter; ///< of single settings in one sitting, one standard deviation
    std::size_t settings = 0;
    std::size_t sittings = 0;

    /// Whether it is one: the interval lies on one side of nothing.
    [[nodiscard]] bool clear() const { return low > Cents(0.0) || high < Cents(0.0); }
};

/// The habit behind settings: each is the habit, what the ear did differently in that sitting, its scatter and the
/// reading's own error; scatter and differences between sittings are learned along. Nothing from fewer than five
/// settings or two sittings. Of ten or more those that lie eight scatters off the others are left out: an exercise that was
/// given up is no habit.
/// **Accuracy** the truth lies in the interval in 90 % of cases where sittings differ by up to one and a half times the
/// scatter (habits_test). **Source** normal model of two levels, the posterior on a grid, half-Cauchy prior of the
/// differences in units of the scatter [Gelman2013] ch. 5 (value from memory).
[[nodiscard]] std::optional<EarHabit> habitOf(std::span<const SettingLeft> settings);

/// What was set at practice, a sitting a day. **Range** a kind that is set by the pin.
[[nodiscard]] std::vector<SettingLeft>
settingsOf(std::span<const PracticeTrial> trials, ExerciseKind kind, PracticeInterval interval);

} // namespace quillbench
