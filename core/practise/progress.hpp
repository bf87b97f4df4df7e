#pragma once

#include "core/practise/exercise.hpp"
#include "core/practise/threshold.hpp"
#include "core/units/cents.hpp"

#include <cstdint>
#include <optional>
#include <span>
#include <string_view>
#include <vector>

namespace quillbench {

/// One exercise that was done and counts.
struct PracticeTrial {
    std::int64_t day = 0; ///< days since 1970-01-01
    ExerciseKind kind = ExerciseKind::Count;
    PracticeInterval interval = PracticeInterval::Unison;
    EarRegister earRegister = EarRegister::Tenor;
    double level = 1.0; ///< Count, WhichWay: on the kind's scale
    bool right = false; ///< Count, WhichWay
    double leftBeats =
        0.0; ///< the others: what was left over against what was wanted, per second, + = wide
    double leftCents = 0.0; ///< likewise in cents
};

/// Where the ear stands with one interval in one register.
struct EarStanding {
    PracticeInterval interval = PracticeInterval::Unison;
    EarRegister earRegister = EarRegister::Tenor;
    Threshold
        threshold; ///< Count, WhichWay: by estimateThreshold. The others: three of four settings lie within it
    bool small = false; ///< fewer answers than kFewAnswers: the interval says little
};

/// With fewer answers a standing is drawn as a guess.
inline constexpr std::size_t kFewAnswers = 12;

/// The beats per second within which three of four settings lie, from what was left over: of a normal distribution about
/// the right place, its width with a 90 % credible interval (every logarithm of the width equally likely before).
/// Nothing from fewer than two. **Source** posterior of a scale parameter, [Gelman2013] ch. 2 (value from memory).
[[nodiscard]] std::optional<Threshold> settingWithin(std::span<const double> leftBeats);

/// What this ear does on the whole: the mean of what was left over in cents, with the half-width of its 95 % interval
/// (Student's t). Nothing from fewer than five settings.
struct EarHabit {
    Cents mean;
    Cents halfWidth;
    std::size_t settings = 0;
};

[[nodiscard]] std::optional<EarHabit>
habitOf(std::span<const PracticeTrial> trials, ExerciseKind kind, PracticeInterval interval);

/// All of one kind, by interval, then register; only where there is something.
[[nodiscard]] std::vector<EarStanding> standingsOf(std::span<const PracticeTrial> trials,
                                                   ExerciseKind kind);

/// A standing as it was in one week.
struct WeekStanding {
    std::int64_t week = 0; ///< weeks since Monday 1969-12-29
    Threshold threshold;
};

/// Week by week, with all registers together: where there are at least kFewAnswers in a week.
[[nodiscard]] std::vector<WeekStanding>
weeksOf(std::span<const PracticeTrial> trials, ExerciseKind kind, PracticeInterval interval);

/// What was measured of other people's ears.
struct PublishedThreshold {
    double low = 0.0; ///< on the scale of the kind; low = high: one value
    double high = 0.0;
    std::string_view what;
    std::string_view source;
};

/// For comparison with one kind of exercise.
[[nodiscard]] std::span<const PublishedThreshold> publishedFor(ExerciseKind kind);

} // namespace quillbench
