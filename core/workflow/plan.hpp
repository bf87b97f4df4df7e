#pragma once

#include "core/instrument/instrument.hpp"
#include "core/pitch/note.hpp"
#include "core/support/result.hpp"
#include "core/units/cents.hpp"
#include "core/units/hertz.hpp"

#include <cstddef>
#include <functional>
#include <optional>
#include <vector>

namespace quillbench {

/// What must be known of one string before its pin is touched.
struct StringFacts {
    Hertz target;                         ///< of partial 1; > 0
    double inharmonicity = 0;             ///< B; 0 where unknown
    Cents marginLow{1200.0};              ///< lower bound of the margin to breaking, at the target
    std::optional<double> centsPerDegree; ///< of pin turn, where the pin's diameter is known
};

using FactsOfString = std::function<StringFacts(StringId)>;

/// One string to bring to its target.
struct TuningStep {
    StringId string;
    std::size_t key = 0; ///< index into Compass::keys
    Note note;           ///< the key's name; a 4′ string sounds an octave above it
    StringFacts facts;
    Cents tolerance{1.0};
    Cents ceiling{
        10.0}; ///< the string is never asked for, nor may stand, higher than this above target
};

/// The strings in the order in which they are asked for.
struct TuningPlan {
    std::size_t choir = 0;
    std::vector<TuningStep> steps;

    /// Which step tunes this string.
    [[nodiscard]] std::optional<std::size_t> stepOf(StringId string) const;
};

enum class StepOrder {
    FromA,     ///< A first, then its neighbours by turns, outward
    Chromatic, ///< upwards
};

/// How far above its target a string may be taken: the lesser of 10 cents and a quarter of the lower bound of its
/// margin to breaking; never negative. **Source** common practice, no source.
[[nodiscard]] Cents ceilingAboveTarget(Cents marginLow);

/// The keys from `lowest` to the octave above it on one choir, in the order asked for, the keyboard at `position`.
/// **Range** choir < instrument.choirs.size(); position one of instrument.positions. **Errors** BadArgument when the compass lacks one of the ends.
[[nodiscard]] Result<TuningPlan> planFirstOctave(const Instrument& instrument,
                                                 std::size_t choir,
                                                 Note lowest,
                                                 StepOrder order,
                                                 const FactsOfString& factsOf,
                                                 int position = 0);

} // namespace quillbench
