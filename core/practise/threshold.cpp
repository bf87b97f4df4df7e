#include "core/practise/threshold.hpp"

#include "core/support/contract.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <vector>

namespace quillbench {

namespace {

constexpr double kThree = 0.75;       // of four
constexpr double kSpreadBefore = 1.4; // natural logarithm: a factor of four
constexpr double kGridHalf = 4.2;     // three of them to either side
constexpr int kGridPoints = 169;      // a twentieth of a natural logarithm apart
constexpr double kSlopes[] = {0.08, 0.12, 0.18, 0.27, 0.40, 0.60, 0.90}; // scale of the logistic
constexpr double kLapses[] = {0.005, 0.02, 0.05, 0.10};
constexpr double kTail = 0.05;

constexpr int kProductsAtOnce = 32; // of chances no smaller than a thousandth: no underflow

/// How the chance of a right answer rises from guessing: its share of the way, at three of four right, is
/// 1/(1 + exp(−shift)).
double shiftOf(double lapse, double guessing) {
    const double share = (kThree - guessing) / (1.0 - guessing - lapse);
    return std::log(share / (1.0 - share));
}

/// Log likelihood of all answers at one threshold, slope and lapses integrated out evenly.
double logLikelihood(double threshold,
                     double wayEasier,
                     double guessing,
                     std::span<const Answer> answers,
                     std::span<const double> logLevels) {
    constexpr std::size_t kLapseCount = std::size(kLapses);
    std::vector<double> each;
    each.reserve(std::size(kSlopes) * kLapseCount);
    for (const double slope : kSlopes) {
        double sums[kLapseCount] = {};
        double products[kLapseCount];
        double shifts[kLapseCount];
        for (std::size_t l = 0; l < kLapseCount; ++l) {
            products[l] = 1.0;
            shifts[l] = std::exp(-shiftOf(kLapses[l], guessing));
        }
        for (std::size_t i = 0; i < answers.size(); ++i) {
            const double farther = std::exp(-wayEasier * (logLevels[i] - threshold) / slope);
            for (std::size_t l = 0; l < kLapseCount; ++l) {
                const double right =
                    guessing + (1.0 - guessing - kLapses[l]) / (1.0 + farther * shifts[l]);
                products[l] *= answers[i].right ? right : 1.0 - right;
            }
            if ((i + 1) % kProductsAtOnce == 0) {
                for (std::size_t l = 0; l < kLapseCount; ++l) {
                    sums[l] += std::log(products[l]);
                    products[l] = 1.0;
                }
            }
        }
        for (std::size_t l = 0; l < kLapseCount; ++l) {
            each.push_back(sums[l] + std::log(products[l]));
        }
    }
    const double most = *std::max_element(each.begin(), each.end());
    const double total = std::accumulate(each.begin(), each.end(), 0.0, [most](double s, double l) {
        return s + std::exp(l - most);
    });
    return most + std::log(total);
}

/// Where a distribution given at grid points reaches a share of its whole.
double quantile(const std::vector<double>& weights, double first, double step, double share) {
    const double total = std::accumulate(weights.begin(), weights.end(), 0.0);
    double sum = 0.0;
    for (std::size_t i = 0; i < weights.size(); ++i) {
        if (sum + weights[i] >= share * total) {
            const double inside = (share * total - sum) / weights[i] - 0.5;
            return first + step * (static_cast<double>(i) + inside);
        }
        sum += weights[i];
    }
    return first + step * static_cast<double>(weights.size() - 1);
}

/// The highest point, between grid points by a parabola through the logarithms.
double modeOf(const std::vector<double>& logs, double first, double step) {
    const auto top = static_cast<std::size_t>(
        std::distance(logs.begin(), std::max_element(logs.begin(), logs.end())));
    double between = 0.0;
    if (top > 0 && top + 1 < logs.size()) {
        const double bend = logs[top - 1] - 2.0 * logs[top] + logs[top + 1];
        between = bend < 0.0 ? 0.5 * (logs[top - 1] - logs[top + 1]) / bend : 0.0;
    }
    return first + step * (static_cast<double>(top) + between);
}

} // namespace

std::optional<Threshold> estimateThreshold(const DifficultyScale& scale,
                                           std::span<const Answer> answers) {
    if (answers.empty()) {
        return std::nullopt;
    }
    EXPECTS(std::all_of(
        answers.begin(), answers.end(), [](const Answer& answer) { return answer.level > 0.0; }));
    const double usual = std::log(scale.usual);
    const double wayEasier = scale.easiest > scale.hardest ? 1.0 : -1.0;
    const double first = usual - kGridHalf;
    const double step = 2.0 * kGridHalf / (kGridPoints - 1);
    std::vector<double> logLevels;
    logLevels.reserve(answers.size());
    for (const Answer& answer : answers) {
        logLevels.push_back(std::log(answer.level));
    }
    std::vector<double> logs;
    logs.reserve(kGridPoints);
    for (int i = 0; i < kGridPoints; ++i) {
        const double at = first + step * i;
        const double before = (at - usual) / kSpreadBefore;
        logs.push_back(logLikelihood(at, wayEasier, scale.guessing, answers, logLevels) -
                       0.5 * before * before);
    }
    const double most = *std::max_element(logs.begin(), logs.end());
    std::vector<double> weights;
    weights.reserve(logs.size());
    for (const double l : logs) {
        weights.push_back(std::exp(l - most));
    }
    Threshold threshold;
    threshold.level = std::exp(modeOf(logs, first, step));
    threshold.low = std::exp(quantile(weights, first, step, kTail));
    threshold.high = std::exp(quantile(weights, first, step, 1.0 - kTail));
    threshold.answers = answers.size();
    return threshold;
}

} // namespace quillbench
