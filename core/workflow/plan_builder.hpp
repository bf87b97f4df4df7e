#pragma once

#include "core/workflow/whole_plan.hpp"

#include <map>
#include <optional>
#include <vector>

namespace quillbench::detail {

/// Where a key stands that plays a string: the position asked for, or the first one that reaches it.
struct Reach {
    std::size_t key = 0;
    int position = 0;
};

/// A plan in the making: knows which strings are set so far and by which step. Parts of planSession only.
class PlanBuilder {
public:
    PlanBuilder(const Instrument& instrument,
                const TunedScale& scale,
                const PlanOptions& options,
                const FactsOfString& factsOf);

    [[nodiscard]] const Instrument& instrument() const { return instrument_; }

    [[nodiscard]] const TunedScale& scale() const { return scale_; }

    [[nodiscard]] const PlanOptions& options() const { return options_; }

    /// Choirs to be tuned, the reference first, then 8′, 4′, 16′.
    [[nodiscard]] std::vector<std::size_t> choirsInOrder() const;

    [[nodiscard]] std::optional<Reach> reachOf(StringId string) const;

    [[nodiscard]] StringFacts facts(StringId string) const { return factsOf_(string); }

    /// Whether a step so far has set the string, for good or for now.
    [[nodiscard]] bool isSet(StringId string) const { return setBy_.count(string) != 0; }

    [[nodiscard]] bool isSetForGood(StringId string) const { return forGood_.count(string) != 0; }

    /// A step for a string, with its facts, tolerance and the drawing to hear it alone.
    [[nodiscard]] TuningStep stepFor(StringId string, Phase phase, StepWork work) const;

    /// A drawing to set a string with, felt on what is silenced where the player wants that.
    [[nodiscard]] Drawing quietened(Drawing drawing) const;

    /// The other string of a step. **Range** isSet(against) for a step that sets; both keys exist.
    [[nodiscard]] PairAim
    aimAt(const TuningStep& step, StringId against, IntervalKind interval, BeatRate beat) const;

    /// Appends it; finds out which steps it relies on.
    void add(TuningStep step);

    [[nodiscard]] TuningPlan take() { return std::move(plan_); }

    /// Strings of the reference that were set so far, in order.
    [[nodiscard]] std::vector<std::size_t> coursesInOrder() const;

    [[nodiscard]] Cents toleranceOf(StringId string, Cents atBearings) const;

private:
    const Instrument& instrument_;
    const TunedScale& scale_;
    const PlanOptions& options_;
    const FactsOfString& factsOf_;
    TuningPlan plan_;
    std::map<StringId, std::size_t> setBy_; ///< the last step that sets it
    std::map<StringId, std::size_t> forGood_;
};

/// Run-through, warm-up, first look; recheck.
void addListening(PlanBuilder& builder);
void addRecheck(PlanBuilder& builder);
/// A rough pass over a choir, where it has to move far.
void addRoughPass(PlanBuilder& builder, std::size_t choir);
/// The bearings of the reference. **Errors** as planSession.
[[nodiscard]] Result<void> addBearings(PlanBuilder& builder);
/// The rest of the reference.
void addOutward(PlanBuilder& builder);
/// Another choir against those that are set.
void addChoir(PlanBuilder& builder, std::size_t choir);

} // namespace quillbench::detail
