#include "core/drift/recheck.hpp"

#include "core/support/contract.hpp"
#include "core/workflow/sounding_pairs.hpp"

#include <algorithm>
#include <cmath>
#include <set>
#include <utility>

namespace quillbench {

namespace {

/// A reference that differs by less is the same one.
constexpr Cents kSameReference(0.005);

/// By which a string that makes no interval with any other that was heard stands off the nearest of these, to be told
/// all the same. Common practice, no source.
constexpr Cents kFarOff(10.0);

bool sameReference(const RecheckReference& a, const RecheckReference& b) {
    return a.settled == b.settled && abs(interval(a.pitch, b.pitch)) < kSameReference;
}

/// The string of the same choir nearest to one, among those heard.
std::optional<StringId> nearestHeard(const std::map<StringId, Cents>& deviations, StringId string) {
    std::optional<StringId> nearest;
    const auto distance = [string](StringId other) {
        return std::max(string.course, other.course) - std::min(string.course, other.course);
    };
    for (const auto& [other, deviation] : deviations) {
        if (other != string && other.choir == string.choir &&
            (!nearest || distance(other) < distance(*nearest))) {
            nearest = other;
        }
    }
    return nearest;
}

/// Strings far off that no interval judges yet, each against the nearest one that was heard.
void addFarOff(std::vector<HeardInterval>& intervals, const std::map<StringId, Cents>& deviations) {
    std::set<StringId> judged;
    for (const HeardInterval& one : intervals) {
        judged.insert({one.lower, one.upper});
    }
    for (const auto& [string, deviation] : deviations) {
        const auto other = judged.count(string) == 0 ? nearestHeard(deviations, string)
                                                     : std::optional<StringId>();
        if (other && abs(deviation - deviations.at(*other)) > kFarOff) {
            intervals.push_back({std::min(string, *other), std::max(string, *other), kFarOff});
        }
    }
}

} // namespace

void Recheck::hear(StringId string, Cents fromReference, Cents uncertainty) {
    EXPECTS(uncertainty > Cents(0.0));
    if (references_.count(string) == 0) {
        return;
    }
    HeardAgain& one = heard_[string];
    const double before = one.plucks;
    const double now = before + 1.0;
    one.moved = (one.moved * before + fromReference) / now;
    one.uncertainty =
        Cents(std::hypot(one.uncertainty.value() * before, uncertainty.value()) / now);
    ++one.plucks;
}

void Recheck::compareWith(std::map<StringId, RecheckReference> references) {
    std::erase_if(heard_, [&](const auto& one) {
        const auto now = references.find(one.first);
        return now == references.end() || !sameReference(now->second, references_.at(one.first));
    });
    references_ = std::move(references);
}

std::vector<Movement> Recheck::movements(const Instrument& instrument) const {
    std::vector<Movement> movements;
    for (const auto& [string, one] : heard_) {
        const RecheckReference& reference = references_.at(string);
        if (reference.settled) {
            const Cents uncertainty(
                std::hypot(one.uncertainty.value(), reference.uncertainty.value()));
            movements.push_back(movementOf(instrument, string, one.moved, uncertainty, one.plucks));
        }
    }
    return movements;
}

std::map<StringId, Cents> Recheck::deviations(const FactsOfString& factsOf) const {
    std::map<StringId, Cents> deviations;
    for (const auto& [string, one] : heard_) {
        deviations[string] =
            one.moved + interval(factsOf(string).target, references_.at(string).pitch);
    }
    return deviations;
}

std::vector<HeardInterval> intervalsAmong(const Instrument& instrument,
                                          const FactsOfString& factsOf,
                                          const std::map<StringId, Cents>& deviations,
                                          Cents tolerance,
                                          int position) {
    EXPECTS(tolerance > Cents(0.0));
    Programme all;
    all.position = position;
    std::vector<HeardInterval> intervals;
    for (const SoundingPair& pair : soundingPairs(instrument, factsOf, all)) {
        if (deviations.count(pair.lower) > 0 && deviations.count(pair.upper) > 0) {
            intervals.push_back({pair.lower, pair.upper, tolerance, pair.weight});
        }
    }
    addFarOff(intervals, deviations);
    return intervals;
}

RecheckAdvice adviceFor(const std::map<StringId, Cents>& deviations,
                        const std::vector<HeardInterval>& intervals) {
    RecheckAdvice advice;
    advice.here = shortList(deviations, intervals);
    if (advice.here.strings.empty()) {
        return advice;
    }
    ShortList moved = reanchored(deviations, intervals);
    // Where most are out all are tuned again, and then at the pitch that is wanted.
    const bool few = 2 * moved.strings.size() <= deviations.size();
    if (few && moved.strings.size() < advice.here.strings.size()) {
        advice.moved = std::move(moved);
    }
    return advice;
}

} // namespace quillbench
