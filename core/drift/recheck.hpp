#pragma once

#include "core/drift/drift_fit.hpp"
#include "core/drift/short_list.hpp"
#include "core/instrument/instrument.hpp"
#include "core/units/cents.hpp"
#include "core/units/hertz.hpp"
#include "core/workflow/step.hpp"

#include <map>
#include <optional>
#include <vector>

namespace quillbench {

/// What a string is compared with when it is played again.
struct RecheckReference {
    Hertz pitch;
    Cents uncertainty;
    bool settled = false; ///< it was left there; false: what the temperament wants of it
};

/// What was heard of one string in a recheck.
struct HeardAgain {
    int plucks = 0;
    Cents moved;       ///< from its reference, mean of the plucks
    Cents uncertainty; ///< of that mean, without the reference's; one standard deviation
};

/// What a recheck has heard so far. A value.
class Recheck {
public:
    Recheck() = default;

    explicit Recheck(std::map<StringId, RecheckReference> references)
        : references_(std::move(references)) {}

    [[nodiscard]] const std::map<StringId, RecheckReference>& references() const {
        return references_;
    }

    [[nodiscard]] const std::map<StringId, HeardAgain>& heard() const { return heard_; }

    /// One pluck. A string without a reference is left out. **Range** uncertainty > 0.
    void hear(StringId string, Cents fromReference, Cents uncertainty);

    /// Other references, as after strings were tuned: what was heard of strings whose reference changed is dropped.
    void compareWith(std::map<StringId, RecheckReference> references);

    /// How the strings heard moved since they settled, the uncertainty of the old reading included.
    [[nodiscard]] std::vector<Movement> movements(const Instrument& instrument) const;

    /// How far the strings heard stand from what is wanted of them. **Range** factsOf of the instrument's strings.
    [[nodiscard]] std::map<StringId, Cents> deviations(const FactsOfString& factsOf) const;

private:
    std::map<StringId, RecheckReference> references_;
    std::map<StringId, HeardAgain> heard_;
};

/// The intervals between strings that were heard, each to be within `tolerance` of what the temperament wants of it;
/// and of a string that makes none yet, the step to its nearest neighbour where it is more than 10 cents out.
/// **Range** tolerance > 0.
[[nodiscard]] std::vector<HeardInterval> intervalsAmong(const Instrument& instrument,
                                                        const FactsOfString& factsOf,
                                                        const std::map<StringId, Cents>& deviations,
                                                        Cents tolerance,
                                                        int position = 0);

/// What to do about it.
struct RecheckAdvice {
    ShortList here; ///< at the pitch as it is; empty: leave it
    std::optional<ShortList>
        moved; ///< the pitch moved a little, where fewer strings then need the hammer, and no more than half of those heard
};

[[nodiscard]] RecheckAdvice adviceFor(const std::map<StringId, Cents>& deviations,
                                      const std::vector<HeardInterval>& intervals);

} // namespace quillbench
