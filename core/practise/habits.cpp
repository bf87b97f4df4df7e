#include "core/practise/habits.hpp"

#include "core/support/contract.hpp"
#include "core/support/median.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>

namespace quillbench {

namespace {

constexpr std::size_t kFewestSettings = 5;
constexpr std::size_t kFewestSittings = 2;
constexpr int kScatters = 25;
constexpr double kScatterSpan = 1.6;   // natural logarithm to either side of what is seen
constexpr double kLeastScatter = 0.01; // cents: nobody sets more exactly
/// How much sittings differ, in units of the scatter.
constexpr double kRatios[] = {0.0, 0.1, 0.2, 0.3, 0.45, 0.6, 0.8, 1.0, 1.3, 1.6, 2.0, 2.5, 3.0};
constexpr double kTailShare = 0.05;
/// From so many settings on, what lies so many robust scatters off the middle was given up or a mistake, no habit.
constexpr std::size_t kTellsMistakes = 10;
constexpr double kMistake = 8.0;
constexpr double kScatterOfMedian =
    1.4826; ///< of a normal distribution, by its median absolute deviation

/// The posterior of the mean at one scatter and one difference between sittings.
struct HabitPart {
    double logWeight = 0.0;
    double mean = 0.0;
    double deviation = 1.0;
    double scatter = 0.0;
};

using Sittings = std::map<std::int64_t, std::vector<SettingLeft>>;

/// Sittings and habit integrated out; every mean was equally likely before.
HabitPart partAt(const Sittings& sittings, double scatter, double between) {
    double logWeight = 0.0;
    double precision = 0.0;
    double together = 0.0;
    double squares = 0.0;
    for (const auto& [number, settings] : sittings) {
        double weights = 0.0;
        double sum = 0.0;
        double own = 0.0;
        for (const SettingLeft& setting : settings) {
            const double u = setting.uncertainty.value();
            const double weight = 1.0 / (scatter * scatter + u * u);
            weights += weight;
            sum += weight * setting.left.value();
            own += weight * setting.left.value() * setting.left.value();
            logWeight += 0.5 * std::log(weight);
        }
        const double mean = sum / weights;
        const double variance = 1.0 / weights + between * between;
        logWeight -= 0.5 * (own - weights * mean * mean) + 0.5 * std::log(weights * variance);
        precision += 1.0 / variance;
        together += mean / variance;
        squares += mean * mean / variance;
    }
    const double mean = together / precision;
    logWeight -= 0.5 * (squares - precision * mean * mean) + 0.5 * std::log(precision);
    return {logWeight, mean, 1.0 / std::sqrt(precision), scatter};
}

double scatterSeen(const Sittings& sittings) {
    double squares = 0.0;
    double freedom = 0.0;
    for (const auto& [number, settings] : sittings) {
        const auto n = static_cast<double>(settings.size());
        const double mean =
            std::accumulate(settings.begin(),
                            settings.end(),
                            0.0,
                            [](double s, const SettingLeft& one) { return s + one.left.value(); }) /
            n;
        for (const SettingLeft& one : settings) {
            squares += (one.left.value() - mean) * (one.left.value() - mean);
        }
        freedom += n - 1.0;
    }
    return std::max(kLeastScatter, std::sqrt(squares / std::max(1.0, freedom)));
}

std::vector<HabitPart> posteriorOf(const Sittings& sittings) {
    const double seen = scatterSeen(sittings);
    std::vector<HabitPart> parts;
    parts.reserve(kScatters * std::size(kRatios));
    for (int i = 0; i < kScatters; ++i) {
        const double scatter = seen * std::exp(kScatterSpan * (2.0 * i / (kScatters - 1.0) - 1.0));
        for (std::size_t r = 0; r < std::size(kRatios); ++r) {
            HabitPart part = partAt(sittings, scatter, kRatios[r] * scatter);
            const double below = r == 0 ? 0.0 : kRatios[r] - kRatios[r - 1];
            const double above = r + 1 == std::size(kRatios) ? 0.0 : kRatios[r + 1] - kRatios[r];
            part.logWeight += std::log(0.5 * (below + above) / (1.0 + kRatios[r] * kRatios[r]));
            parts.push_back(part);
        }
    }
    return parts;
}

/// Where the mixture of normal distributions reaches a share. **Range** weights that sum to one in logWeight's place.
double habitQuantile(const std::vector<HabitPart>& parts,
                     const std::vector<double>& weights,
                     double share) {
    double low = parts.front().mean;
    double high = low;
    for (const HabitPart& part : parts) {
        low = std::min(low, part.mean - 6.0 * part.deviation);
        high = std::max(high, part.mean + 6.0 * part.deviation);
    }
    for (int halving = 0; halving < 50; ++halving) {
        const double middle = 0.5 * (low + high);
        double below = 0.0;
        for (std::size_t i = 0; i < parts.size(); ++i) {
            const double z = (middle - parts[i].mean) / parts[i].deviation;
            below += weights[i] * 0.5 * std::erfc(-z / std::sqrt(2.0));
        }
        (below < share ? low : high) = middle;
    }
    return 0.5 * (low + high);
}

std::vector<SettingLeft> withoutMistakes(std::span<const SettingLeft> settings) {
    std::vector<SettingLeft> kept(settings.begin(), settings.end());
    if (kept.size() < kTellsMistakes) {
        return kept;
    }
    std::vector<double> values;
    values.reserve(kept.size());
    for (const SettingLeft& one : kept) {
        values.push_back(one.left.value());
    }
    const double middle = medianOf(values);
    for (double& value : values) {
        value = std::abs(value - middle);
    }
    const double scatter = std::max(kLeastScatter, kScatterOfMedian * medianOf(std::move(values)));
    std::erase_if(kept, [&](const SettingLeft& one) {
        return std::abs(one.left.value() - middle) > kMistake * scatter;
    });
    return kept;
}

} // namespace

std::optional<EarHabit> habitOf(std::span<const SettingLeft> all) {
    const std::vector<SettingLeft> settings = withoutMistakes(all);
    Sittings sittings;
    for (const SettingLeft& setting : settings) {
        sittings[setting.sitting].push_back(setting);
    }
    if (settings.size() < kFewestSettings || sittings.size() < kFewestSittings) {
        return std::nullopt;
    }
    const std::vector<HabitPart> parts = posteriorOf(sittings);
    const double most =
        std::max_element(parts.begin(), parts.end(), [](const auto& one, const auto& other) {
            return one.logWeight < other.logWeight;
        })->logWeight;
    std::vector<double> weights;
    weights.reserve(parts.size());
    for (const HabitPart& part : parts) {
        weights.push_back(std::exp(part.logWeight - most));
    }
    const double total = std::accumulate(weights.begin(), weights.end(), 0.0);
    double mean = 0.0;
    double scatter = 0.0;
    for (std::size_t i = 0; i < parts.size(); ++i) {
        weights[i] /= total;
        mean += weights[i] * parts[i].mean;
        scatter += weights[i] * parts[i].scatter;
    }
    return EarHabit{Cents(mean),
                    Cents(habitQuantile(parts, weights, kTailShare)),
                    Cents(habitQuantile(parts, weights, 1.0 - kTailShare)),
                    Cents(scatter),
                    settings.size(),
                    sittings.size()};
}

std::vector<SettingLeft>
settingsOf(std::span<const PracticeTrial> trials, ExerciseKind kind, PracticeInterval interval) {
    EXPECTS(!isAnswered(kind));
    std::vector<SettingLeft> settings;
    for (const PracticeTrial& trial : trials) {
        if (trial.kind == kind && trial.interval == interval) {
            const double beats = std::abs(trial.leftBeats);
            const double centsPerBeat = beats > 0.0 ? std::abs(trial.leftCents) / beats : 0.0;
            settings.push_back(
                {trial.day, Cents(trial.leftCents), Cents(trial.beatUncertainty * centsPerBeat)});
        }
    }
    return settings;
}

} // namespace quillbench
