#pragma once

#include "core/practise/exercise.hpp"
#include "core/practise/threshold.hpp"

#include <cstdint>
#include <optional>
#include <span>
#include <string_view>
#include <vector>

namespace quillbench {

/// What was heard in an exercise.
enum class PracticeSource {
    Virtual,  ///< two strings of the virtual instrument
    Bearings, ///< a step of a whole bearing plan on it
    Own,      ///< the learner's own instrument
};

inline constexpr std::size_t kPracticeSources = 3;

/// One exercise that was done and counts.
struct PracticeTrial {
    std::int64_t day = 0; ///< days since 1970-01-01
    PracticeSource source = PracticeSource::Virtual;
    ExerciseKind kind = ExerciseKind::Count;
    PracticeInterval interval = PracticeInterval::Unison;
    EarRegister earRegister = EarRegister::Tenor;
    double level = 1.0; ///< Count, WhichWay: on the kind's scale
    bool right = false; ///< Count, WhichWay
    double leftBeats =
        0.0; ///< the others: what was left over against what was wanted, per second, + = wide
    double leftCents = 0.0; ///< likewise in cents
    bool fromAbove = false; ///< the others: how the pin came there
    bool settled = false;
    double beat = 0.0; ///< what it was judged by, per second, + = wide
    double beatUncertainty = 0.0;
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

/// A standing speaks of the last so many answers: an ear that learns is not held to what it was.
inline constexpr std::size_t kAnswersOfStanding = 60;

/// All of one kind, by interval, then register; only where there is something.
[[nodiscard]] std::vector<EarStanding> standingsOf(std::span<const PracticeTrial> trials,
                                                   ExerciseKind kind);

/// A standing as it was in one week.
struct WeekStanding {
    std::int64_t monday = 0; ///< days since 1970-01-01
    Threshold threshold;
    bool small = false; ///< fewer answers than kFewAnswers
};

/// Week by week, with all registers together, oldest first; of a week its last kAnswersOfStanding answers.
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
