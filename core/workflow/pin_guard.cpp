#include "core/workflow/pin_guard.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>

namespace quillbench {

namespace {

/// A fall counts as heard from here on (2 cents were asked for; half a cent is left to scatter).
constexpr double kFallCents = 1.5;
/// Real plucks scatter by about this much beyond what one reading knows of itself.
constexpr double kScatterCents = 0.25;
/// Log-likelihood ratio at which the string is said to stand still.
constexpr double kAlarm = 3.2;
constexpr double kEvidenceFloor = -2.0;
/// One pluck that speaks this strongly for a move wipes away what was gathered.
constexpr double kClearMove = -2.0;
/// Of the plucks of a string that is worked, one in seven follows no turn of the pin; turns are Laplace of 4 cents,
/// near the target of this share of the way that is left.
constexpr double kIdle = 0.15;
constexpr double kTurnCents = 4.0;
constexpr double kTurnShare = 0.9;
/// Nearer the target a string that stands still may rightly be left alone.
constexpr double kNearCents = 1.0;
/// Of the plucks of a string that stands still, these are outliers with 20 times the variance.
constexpr double kOutliers = 0.06;
constexpr double kOutlierVariance = 20.0;

double normalDensity(double x, double variance) {
    return std::exp(-x * x / (2.0 * variance)) / std::sqrt(2.0 * std::numbers::pi * variance);
}

double evidenceOf(double difference, double variance, double turn) {
    const double still = (1.0 - kOutliers) * normalDensity(difference, variance) +
                         kOutliers * normalDensity(difference, kOutlierVariance * variance);
    const double worked = kIdle * normalDensity(difference, variance) +
                          (1.0 - kIdle) * std::exp(-std::abs(difference) / turn) / (2.0 * turn);
    return std::log(still / worked);
}

/// How far a string moved between two marks. Where of one only the size is known, it moved by the difference of sizes at
/// the least.
double moved(const Mark& before, const Mark& mark) {
    const bool signs = before.signKnown && mark.signKnown;
    return signs ? (mark.deviation - before.deviation).value()
                 : (abs(mark.deviation) - abs(before.deviation)).value();
}

void hearFall(PinGuard& guard, PinGuard::Heard& heard, const Mark& mark) {
    heard.highest = heard.highest ? std::max(*heard.highest, mark.deviation) : mark.deviation;
    const double fall = (*heard.highest - mark.deviation).value();
    const double noise = std::hypot(mark.uncertainty.value(), kScatterCents);
    guard.fallHeard = guard.fallHeard || fall >= std::max(kFallCents, 3.0 * noise);
}

/// What the difference of two marks says for "stands still".
double evidenceBetween(const Mark& before, const Mark& mark) {
    const double away = abs(mark.deviation).value();
    const double variance = std::pow(mark.uncertainty.value(), 2) +
                            std::pow(before.uncertainty.value(), 2) +
                            2.0 * kScatterCents * kScatterCents;
    return evidenceOf(moved(before, mark), variance, std::min(kTurnCents, kTurnShare * away));
}

bool samePluck(const std::optional<Mark>& one, const Mark& other) {
    return one && std::abs((one->at - other.at).count()) < kOnePluck.count();
}

} // namespace

std::optional<Cents> PinGuard::fallen() const {
    if (!last || !last->signKnown) {
        return std::nullopt;
    }
    const Heard& heard = last->ofPair ? pair : alone;
    return heard.highest ? std::optional(*heard.highest - last->deviation) : std::nullopt;
}

PinGuard watched(const PinGuard& before, const Mark& mark) {
    if (!mark.good) {
        return before;
    }
    PinGuard after = before;
    PinGuard::Heard& heard = mark.ofPair ? after.pair : after.alone;
    const std::optional<Mark> last = std::exchange(heard.last, mark);
    const bool again = samePluck(before.last, mark) && before.last->ofPair != mark.ofPair;
    after.last = mark;
    if (mark.signKnown) {
        hearFall(after, heard, mark);
    }
    if (abs(mark.deviation).value() <= kNearCents) {
        after.evidence = 0.0;
        after.evidenceBefore = 0.0;
        after.notMoving = false;
        return after;
    }
    after.evidenceBefore = again ? before.evidenceBefore : before.evidence;
    if (last && (!again || mark.uncertainty < before.last->uncertainty)) {
        const double step = evidenceBetween(*last, mark);
        after.evidence = step < kClearMove ? kEvidenceFloor
                                           : std::max(kEvidenceFloor, after.evidenceBefore + step);
    }
    after.notMoving = after.evidence > kAlarm;
    return after;
}

} // namespace quillbench
