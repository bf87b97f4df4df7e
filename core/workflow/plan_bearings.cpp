#include "core/workflow/plan_builder.hpp"

#include <algorithm>
#include <cmath>

namespace quillbench::detail {

namespace {

/// Two pitches nearer than this are the same note of the temperament.
constexpr double kSameNoteCents = 0.01;
/// An octave of natural keys: what one hand spans while the other holds the hammer.
constexpr double kSpanColumns = 7.2;

/// The string of the reference that bears a note of the scale; nothing where the compass has no such pitch.
std::optional<StringId> stringFor(const PlanBuilder& builder, const Note& note) {
    const std::size_t choir = builder.options().reference;
    const auto string = stringOf(builder.instrument(), choir, note, builder.options().position);
    if (!string) {
        return std::nullopt;
    }
    const int octaves = octavesAbove(builder.instrument().choirs[choir].footage);
    const Hertz wanted = builder.scale().pitchOf(note) * std::exp2(octaves);
    const bool same =
        std::abs(interval(wanted, builder.facts(*string).target).value()) < kSameNoteCents;
    return same ? string : std::nullopt;
}

bool spanned(const PlanBuilder& builder, const TuningStep& step, StringId other) {
    const auto& keys = builder.instrument().compass.keys;
    const auto key = keyAt(builder.instrument(), other.course, builder.options().position);
    return key && std::abs(keys[step.key].column - keys[*key].column) <= kSpanColumns;
}

/// Beats of a choir an octave away are twice or half those of the plan.
BeatRate atChoir(const PlanBuilder& builder, BeatRate beat) {
    const Choir& choir = builder.instrument().choirs[builder.options().reference];
    return beat * std::exp2(octavesAbove(choir.footage));
}

/// One step of a bearing plan; it may turn out a check where its string is set and not to be moved again, or a
/// string that is set by meter where what it was tuned against is not there.
void addByEar(PlanBuilder& builder, const BearingStep& from, bool lastOfItsNote) {
    const auto tune = stringFor(builder, from.tune);
    if (!tune) {
        return;
    }
    const bool check = from.kind == StepKind::Check;
    const StepWork work = check           ? StepWork::Check
                          : lastOfItsNote ? StepWork::Set
                                          : StepWork::SetForNow;
    TuningStep step = builder.stepFor(*tune, Phase::Bearings, work);
    const auto against = from.fromStandard ? std::nullopt : stringFor(builder, from.against);
    if (against && *against != *tune && builder.isSet(*against)) {
        if (check || spanned(builder, step, *against)) {
            step.pair = builder.aimAt(step, *against, from.interval, atChoir(builder, from.beat));
        }
    }
    if (check && (!step.pair || !builder.isSet(*tune))) {
        return;
    }
    if (step.pair && from.alike) {
        const auto with = stringFor(builder, from.alike->with);
        if (with && *with != *tune && builder.isSet(*with) && spanned(builder, step, *with)) {
            step.alike = builder.aimAt(
                step, *with, from.alike->interval, atChoir(builder, from.alike->beat));
        }
    }
    builder.add(std::move(step));
}

Result<void> addPlanByEar(PlanBuilder& builder, const std::string& id) {
    BearingPlan plan;
    if (id == "computed") {
        const bool fromC = builder.options().bearingsFrom.pitchClass.letter == Letter::C;
        plan = computedPlan(builder.scale(), fromC ? BearingRange::C3ToG4 : BearingRange::F3ToC5);
    } else {
        Result<BearingPlan> published = publishedPlan(builder.scale(), id);
        if (!published) {
            return failure(published.error().code, published.error().text);
        }
        plan = *published;
    }
    for (std::size_t i = 0; i < plan.steps.size(); ++i) {
        const BearingStep& step = plan.steps[i];
        const bool again =
            std::any_of(plan.steps.begin() + static_cast<std::ptrdiff_t>(i) + 1,
                        plan.steps.end(),
                        [&](const BearingStep& later) {
                            return later.kind != StepKind::Check &&
                                   stringFor(builder, later.tune) == stringFor(builder, step.tune);
                        });
        addByEar(builder, step, !again);
    }
    return {};
}

} // namespace

Result<void> addBearings(PlanBuilder& builder) {
    const PlanOptions& options = builder.options();
    if (options.bearingPlan) {
        return addPlanByEar(builder, *options.bearingPlan);
    }
    Result<TuningPlan> octave = planFirstOctave(
        builder.instrument(), options, [&](StringId string) { return builder.facts(string); });
    if (!octave) {
        return failure(octave.error().code, octave.error().text);
    }
    for (const TuningStep& step : octave->steps) {
        builder.add(builder.stepFor(step.string, Phase::Bearings, StepWork::Set));
    }
    return {};
}

} // namespace quillbench::detail
