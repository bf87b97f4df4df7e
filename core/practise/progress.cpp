#include "core/practise/progress.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <utility>

namespace quillbench {

namespace {

/// 75 % of a normal distribution lie within so many standard deviations of its middle.
constexpr double kThreeQuarters = 1.1503;
constexpr double kSmallestLeft = 0.005; // beats a second: nobody stands still more exactly
constexpr int kScalePoints = 400;
constexpr std::int64_t kMondayBefore = 3; // 1970-01-01 was a Thursday

std::optional<Threshold> thresholdOf(const std::vector<const PracticeTrial*>& all,
                                     ExerciseKind kind) {
    const std::span trials =
        std::span(all).last(std::min<std::size_t>(all.size(), kAnswersOfStanding));
    if (!isAnswered(kind)) {
        std::vector<double> left;
        left.reserve(trials.size());
        for (const PracticeTrial* trial : trials) {
            left.push_back(trial->leftBeats);
        }
        return settingWithin(left);
    }
    std::vector<Answer> answers;
    answers.reserve(trials.size());
    for (const PracticeTrial* trial : trials) {
        answers.push_back({trial->level, trial->right});
    }
    return estimateThreshold(scaleOf(kind), answers);
}

constexpr PublishedThreshold kForCounting[] = {
    {10.0,
     10.0,
     "beats are easily heard up to here",
     "Houtsma, Rossing, Wagenaars 1987, demonstration 32"},
    {6.0, 7.0, "fastest that is counted without help", "value from memory"},
};
constexpr PublishedThreshold kForDirection[] = {
    {20.0,
     30.0,
     "direction told without moving the pin (fifths and major thirds)",
     "Vos 1982, Perception & Psychophysics 32, 297"},
};
constexpr PublishedThreshold kForBringing[] = {
    {0.2, 0.2, "slower ones are hidden while the strings die away", "value from memory"},
};
constexpr PublishedThreshold kForLeaving[] = {
    {0.5,
     0.5,
     "a third's own beat wanders so much within a note (piano)",
     "B. Capleton, Amarilli Books"},
};
constexpr PublishedThreshold kForComparing[] = {
    {3.0,
     6.0,
     "sequences of clicks, six intervals to one",
     "Drake, Botte 1993, Perception & Psychophysics"},
    {5.0, 5.0, "clicks, fewer than 20 a second", "Frontiers in Psychology 5 (2014), 1453"},
};

} // namespace

std::optional<Threshold> settingWithin(std::span<const double> leftBeats) {
    if (leftBeats.size() < 2) {
        return std::nullopt;
    }
    const auto n = static_cast<double>(leftBeats.size());
    double squares = n * kSmallestLeft * kSmallestLeft;
    for (const double left : leftBeats) {
        squares += left * left;
    }
    const double likeliest = 0.5 * std::log(squares / n);
    // p(ln σ) ∝ σ^−n · exp(−S/2σ²)
    std::vector<double> weights;
    weights.reserve(kScalePoints);
    constexpr double kHalf = 3.0;
    constexpr double kStep = 2.0 * kHalf / kScalePoints;
    for (int i = 0; i < kScalePoints; ++i) {
        const double logScale = likeliest - kHalf + kStep * (i + 0.5);
        weights.push_back(std::exp(-n * (logScale - likeliest) -
                                   0.5 * n * (std::exp(2.0 * (likeliest - logScale)) - 1.0)));
    }
    const double total = std::accumulate(weights.begin(), weights.end(), 0.0);
    const auto at = [&](double share) {
        double sum = 0.0;
        for (int i = 0; i < kScalePoints; ++i) {
            const double weight = weights[static_cast<std::size_t>(i)];
            if (sum + weight >= share * total) {
                return likeliest - kHalf + kStep * (i + (share * total - sum) / weight);
            }
            sum += weight;
        }
        return likeliest + kHalf;
    };
    return Threshold{kThreeQuarters * std::exp(likeliest),
                     kThreeQuarters * std::exp(at(0.05)),
                     kThreeQuarters * std::exp(at(0.95)),
                     leftBeats.size()};
}

std::vector<EarStanding> standingsOf(std::span<const PracticeTrial> trials, ExerciseKind kind) {
    std::map<std::pair<PracticeInterval, EarRegister>, std::vector<const PracticeTrial*>> each;
    for (const PracticeTrial& trial : trials) {
        if (trial.kind == kind) {
            each[{trial.interval, trial.earRegister}].push_back(&trial);
        }
    }
    std::vector<EarStanding> standings;
    for (const auto& [where, here] : each) {
        if (const auto threshold = thresholdOf(here, kind)) {
            standings.push_back(
                {where.first, where.second, *threshold, threshold->answers < kFewAnswers});
        }
    }
    return standings;
}

std::vector<WeekStanding>
weeksOf(std::span<const PracticeTrial> trials, ExerciseKind kind, PracticeInterval interval) {
    std::map<std::int64_t, std::vector<const PracticeTrial*>> each;
    for (const PracticeTrial& trial : trials) {
        if (trial.kind == kind && trial.interval == interval) {
            const std::int64_t sinceMonday = ((trial.day + kMondayBefore) % 7 + 7) % 7;
            each[trial.day - sinceMonday].push_back(&trial);
        }
    }
    std::vector<WeekStanding> weeks;
    for (const auto& [monday, here] : each) {
        if (const auto threshold = thresholdOf(here, kind)) {
            weeks.push_back({monday, *threshold, threshold->answers < kFewAnswers});
        }
    }
    return weeks;
}

std::span<const PublishedThreshold> publishedFor(ExerciseKind kind) {
    switch (kind) {
    case ExerciseKind::Count:
        return kForCounting;
    case ExerciseKind::WhichWay:
        return kForDirection;
    case ExerciseKind::BringTogether:
        return kForBringing;
    case ExerciseKind::LeaveALittle:
        return kForLeaving;
    case ExerciseKind::Compare:
        break;
    }
    return kForComparing;
}

} // namespace quillbench
