#include "core/workflow/whole_plan.hpp"

#include "core/instrument/string.hpp"
#include "core/workflow/plan_builder.hpp"

#include <algorithm>
#include <map>
#include <string>

namespace quillbench {

namespace {

constexpr double kCentsPerSemitone = 100.0;

Result<void> fits(const Instrument& instrument, const PlanOptions& options) {
    if (options.reference >= instrument.choirs.size()) {
        return failure(ErrorCode::BadArgument,
                       "the reference choir is not one of this instrument; it has " +
                           std::to_string(instrument.choirs.size()));
    }
    for (std::size_t choir = 0; choir < instrument.choirs.size(); ++choir) {
        const auto& leave = options.leaveAlone;
        const bool left = std::find(leave.begin(), leave.end(), choir) != leave.end();
        if (left && choir == options.reference) {
            return failure(ErrorCode::BadArgument,
                           "the reference choir cannot be left alone; choose another reference");
        }
        if (!left && !soloRegister(instrument, choir)) {
            return failure(ErrorCode::BadArgument,
                           "no row of jacks plucks the " + choirLabel(instrument.choirs[choir]) +
                               "; leave that choir alone or give it a register");
        }
    }
    const auto& positions = instrument.positions;
    if (std::find(positions.begin(), positions.end(), options.position) == positions.end()) {
        return failure(ErrorCode::BadArgument,
                       "the keyboard has no position " + std::to_string(options.position));
    }
    return {};
}

/// F3 or C3, whichever the compass has whole.
Note lowestOfBearings(const Instrument& instrument, Note wanted) {
    const Note upper{wanted.pitchClass, static_cast<std::int8_t>(wanted.octave + 1)};
    if (keyOf(instrument.compass, wanted) && keyOf(instrument.compass, upper)) {
        return wanted;
    }
    return Note{{Letter::C, 0}, 3};
}

} // namespace

Result<TuningPlan> planSession(const Instrument& instrument,
                               const TunedScale& scale,
                               const PlanOptions& options,
                               const FactsOfString& factsOf) {
    if (const Result<void> ok = fits(instrument, options); !ok) {
        return failure(ok.error().code, ok.error().text);
    }
    PlanOptions settled = options;
    settled.bearingsFrom = lowestOfBearings(instrument, options.bearingsFrom);
    detail::PlanBuilder builder(instrument, scale, settled, factsOf);
    detail::addListening(builder);
    detail::addRoughPass(builder, settled.reference);
    if (const Result<void> ok = detail::addBearings(builder); !ok) {
        return failure(ok.error().code, ok.error().text);
    }
    detail::addOutward(builder);
    for (const std::size_t choir : builder.choirsInOrder()) {
        if (choir != settled.reference) {
            detail::addRoughPass(builder, choir);
            detail::addChoir(builder, choir);
        }
    }
    detail::addRecheck(builder);
    return builder.take();
}

StringFacts factsAt(const StringMake& make, Hertz target) {
    const StringState state = stringState(make, target);
    StringFacts facts;
    facts.target = target;
    facts.inharmonicity = state.inharmonicity;
    facts.marginLow = Cents(state.margin.lowSemitones * kCentsPerSemitone);
    if (state.centsPerDegree) {
        facts.centsPerDegree = state.centsPerDegree->value();
    }
    return facts;
}

FactsOfString factsFor(const Instrument& instrument, const TunedScale& scale, int position) {
    return [&instrument, &scale, position](StringId string) {
        return factsAt(instrument.choirs[string.choir].strings[string.course],
                       targetPitch(
                           instrument,
                           string,
                           [&](const Note& note) { return scale.pitchOf(note); },
                           position));
    };
}

} // namespace quillbench
