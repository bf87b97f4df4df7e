#pragma once

#include "core/dsp/known_string.hpp"
#include "core/units/frames.hpp"

#include <memory>
#include <span>
#include <vector>

namespace quillbench {

struct LoneRecord;

/// What a string's sound alone told, kept so that it can be fitted together with a pair. `partial` is the one that meets.
/// Nothing where too little was heard. Costs about a tenth of a second. **Range** pluck < stop, both inside the sound.
[[nodiscard]] std::shared_ptr<const LoneRecord> recordAlone(std::span<const double> samples,
                                                            SampleRate rate,
                                                            Seconds pluck,
                                                            Seconds stop,
                                                            const KnownString& known,
                                                            int partial);

/// A pair, and the beat from which to start.
struct TiedQuestion {
    int lowerPartial = 1;
    int upperPartial = 1;
    Seconds firstPluck{0}; ///< of the two; which of the strings was plucked then is found out
    Seconds laterPluck{0};
    Cents drift{0.0};  ///< of the lower string since it was heard alone, one standard deviation
    double beat = 0.0; ///< per second, + = wide
};

/// Where a fit of the pair may end: the posterior has several peaks.
struct TiedOptimum {
    double beat = 0.0;      ///< per second, + = wide, by its definition
    double deviation = 0.0; ///< about this peak, one standard deviation
    double lnWeight = 0.0;  ///< of the peak, up to a constant (Laplace)
};

/// The beat of a pair, fitted together with the record of its lower string alone: both strings with two polarisations a
/// partial, the lower one's amplitudes tied to those heard alone. Heaviest peak first; none where frames cannot part the
/// strings' partials. Costs a quarter of a second. **Accuracy** tests/accuracy, set `pairs`.
/// **Range** firstPluck ≤ laterPluck < stop, inside the sound.
[[nodiscard]] std::vector<TiedOptimum> hearTied(std::span<const double> samples,
                                                SampleRate rate,
                                                Seconds stop,
                                                const LoneRecord& lower,
                                                const TiedQuestion& question);

/// Two hearings of one beat as one.
struct BothHearings {
    double beat = 0.0;        ///< median, per second
    double uncertainty = 0.0; ///< one standard deviation
};

/// The peaks of the tied fit, none of them trusted as far as it says, together with a beat heard otherwise and its doubt;
/// all with the heavy tails of Student's t, so that a hearing far off counts for nothing. `hz`: where the partials meet.
/// **Range** optima not empty, doubt > 0. **Source** own measurement on tests/accuracy, pairs, normal and hard.
[[nodiscard]] BothHearings
bothHearings(std::span<const TiedOptimum> optima, double heard, double doubt, double hz);

} // namespace quillbench
