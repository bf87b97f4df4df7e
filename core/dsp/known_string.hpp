#pragma once

#include "core/units/cents.hpp"
#include "core/units/frames.hpp"
#include "core/units/hertz.hpp"

#include <array>
#include <memory>
#include <optional>
#include <span>
#include <vector>

namespace quillbench {

/// The two polarisations of a partial, as heard alone: values with standard deviations.
struct KnownPolarisation {
    double hz = 0.0;
    double hzDeviation = 0.0;
    double lnDecay = 0.0;
    double lnDecayDeviation = 0.0;
    double splitHz = 0.0;
    double splitDeviation = 0.0;
    double lnSlower = 0.0;
    double lnSlowerDeviation = 0.0;
    double secondShare = 0.0;
    double meanHz = 0.0; ///< of both together, by the definition of the sustain pitch
    double meanDeviation = 0.0;
    double fragility = 0.0; ///< Hz, as PolarisedBandResult's
};

/// One partial of a string that was heard alone.
struct KnownPartial {
    int number = 1;
    double offsetHz = 0.0; ///< from the stiff comb
    double decay = 1.0;    ///< σ, per second
    double level = 0.0;    ///< amplitude at the pluck, full scale 1
    std::optional<KnownPolarisation> polarisation;
};

struct LoneRecord;

/// What is known of the lower string before the two are heard together.
struct KnownString {
    double f0Hz = 0.0;          ///< at rest
    double inharmonicity = 0.0; ///< B
    double glide = 0.0;         ///< relative sharpness at the pluck
    Hertz sustain;              ///< sustain pitch
    Cents deviation;            ///< standard deviation of the pitch, drift since then included
    std::vector<KnownPartial> partials;       ///< empty for a kept reading
    std::shared_ptr<const LoneRecord> record; ///< its sound alone, see recordAlone(); may be null
    Cents drift{0.0};                         ///< since it was heard alone, one standard deviation
};

/// The partials of a string that are worth hearing out before it is heard with another one that it meets at `partial`: that
/// one and the next multiples of it, where they meet as well. **Range** partial ≥ 1.
[[nodiscard]] std::array<int, 6> meetingOnes(int partial);

/// Listens to one string alone: the reference before a pair. **Range** pluck < stop, both inside the sound.
/// Nothing where no string is found within `range` of `target`. The polarisations of `closely` are heard out.
[[nodiscard]] std::optional<KnownString> hearAlone(std::span<const double> samples,
                                                   SampleRate rate,
                                                   Seconds pluck,
                                                   Seconds stop,
                                                   Hertz target,
                                                   Cents range,
                                                   std::span<const int> closely = {});

/// A kept reading as knowledge of a string: its sustain pitch, widened by `deviation` for noise and drift.
/// **Range** sustain 15 to 4000 Hz, deviation > 0.
[[nodiscard]] KnownString keptString(Hertz sustain, Cents deviation);

} // namespace quillbench
