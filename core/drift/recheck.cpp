#include "core/drift/recheck.hpp"

#include "core/support/contract.hpp"
#include "core/workflow/sounding_pairs.hpp"

#include <cmath>
#include <utility>

namespace quillbench {

namespace {

/// A reference that differs by less is the same one.
constexpr Cents kSameReference(0.005);

bool sameReference(const RecheckReference& a, const RecheckReference& b) {
    return a.settled == b.settled && abs(interval(a.pitch, b.pitch)) < kSameReference;
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
    if (moved.strings.size() < advice.here.strings.size()) {
        advice.moved = std::move(moved);
    }
    return advice;
}

} // namespace quillbench
