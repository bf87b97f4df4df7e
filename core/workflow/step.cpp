#include "core/workflow/step.hpp"

#include "core/support/contract.hpp"

#include <algorithm>
#include <cmath>

namespace quillbench {

namespace {

/// Below this a pair further up the series is listened to as well heard: the fundamentals of the bass are weak on these
/// instruments and their high partials strong, and a tenth of a beat a second is half a cent only here. Common practice,
/// no source.
constexpr double kLowestHeardHz = 350.0;
constexpr int kHighestPartial = 8;

/// Octaves and unisons in the bass are heard further up: at 4:2 or 8:4 rather than 2:1.
PartialPair heardPair(IntervalKind interval, Hertz lower) {
    const PartialPair lowest = intervalOf(interval).pair;
    const bool still = interval == IntervalKind::Unison || interval == IntervalKind::Octave ||
                       interval == IntervalKind::Fifteenth;
    int times = 1;
    while (still && (times + 1) * std::max(lowest.ofLower, lowest.ofUpper) <= kHighestPartial &&
           times * lowest.ofLower * lower.value() < kLowestHeardHz) {
        ++times;
    }
    return PartialPair{times * lowest.ofLower, times * lowest.ofUpper};
}

} // namespace

std::optional<std::size_t> TuningPlan::stepOf(StringId string) const {
    for (std::size_t i = 0; i < steps.size(); ++i) {
        if (steps[i].work == StepWork::Set && steps[i].string == string) {
            return i;
        }
    }
    return std::nullopt;
}

Cents ceilingAboveTarget(Cents marginLow) {
    return std::clamp(marginLow / 4.0, Cents(0.0), Cents(10.0));
}

Cents partialStretch(int n, double inharmonicity) {
    EXPECTS(n >= 1 && inharmonicity >= 0.0);
    return Cents(600.0 * std::log2((1.0 + n * n * inharmonicity) / (1.0 + inharmonicity)));
}

PairAim pairAim(const StringFacts& tuned,
                const StringFacts& against,
                IntervalKind interval,
                bool tunedIsUpper,
                BeatRate beat,
                Cents tolerance) {
    EXPECTS(tuned.target.value() > 0.0 && against.target.value() > 0.0);
    const StringFacts& lower = tunedIsUpper ? against : tuned;
    const StringFacts& upper = tunedIsUpper ? tuned : against;
    const PartialPair lowest = intervalOf(interval).pair;
    PairAim aim;
    aim.interval = interval;
    aim.tunedIsUpper = tunedIsUpper;
    aim.pair = heardPair(interval, lower.target);
    const double times = static_cast<double>(aim.pair.ofLower) / lowest.ofLower;
    const Hertz meeting = lower.target * static_cast<double>(aim.pair.ofLower);
    aim.beat = beat * times;
    aim.tolerance = BeatRate(tolerance.value() * hertzPerCent(meeting));
    aim.width = quillbench::interval(meeting, Hertz(meeting.value() + aim.beat.perSecond()));
    const Cents wide = partialStretch(aim.pair.ofLower, lower.inharmonicity) -
                       partialStretch(aim.pair.ofUpper, upper.inharmonicity);
    aim.offset = tunedIsUpper ? wide : -wide;
    return aim;
}

} // namespace quillbench
