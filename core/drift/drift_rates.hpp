#pragma once

#include "core/drift/drift_fit.hpp"
#include "core/instrument/instrument.hpp"
#include "core/units/cents.hpp"

#include <optional>
#include <span>
#include <vector>

namespace quillbench {

/// One look at a string some days after it was settled.
struct DriftSighting {
    StringId string;
    double days = 0.0; ///< > 0
    Cents moved;
    Cents uncertainty; ///< of both readings; one standard deviation
};

/// How fast a string drifts, with its uncertainty: drawn towards its choir as far as its own sightings are few.
struct DriftRate {
    StringId string;
    double centsPerDay = 0.0;
    double uncertainty = 0.0;
    int sightings = 0;
};

struct DriftRates {
    std::vector<DriftRate> strings;      ///< of those seen, by string
    std::vector<DriftPart> choirs;       ///< cents a day; as many as the instrument has
    std::vector<double> scatterOfChoirs; ///< of strings about their choir, cents a day
};

/// Rates from sightings over several sessions: a normal prior for each choir, learned from its strings (empirical
/// Bayes, moments). **Range** sightings of strings of the instrument; may be empty.
[[nodiscard]] DriftRates driftRates(const Instrument& instrument,
                                    std::span<const DriftSighting> sightings);

/// When a retune will be due, in days from when all was settled.
struct RetuneDue {
    double days = 0.0;
    double earliest = 0.0; ///< rates one standard deviation faster
    double latest = 0.0;   ///< rates one standard deviation slower
};

/// When a share of the strings is expected to be further than the tolerance from the middle of them all: what the whole
/// does together needs no retuning. Nothing within a year, or nothing known: none.
/// **Range** tolerance > 0, share 0 … 1.
[[nodiscard]] std::optional<RetuneDue>
retuneDue(const DriftRates& rates, Cents tolerance, double share = 0.1);

/// What a string does again and again.
enum class Habit {
    Steady,
    PinSlips,      ///< sinks, by as much each time: the pin does not hold
    WireStretches, ///< sinks less each time: new wire, or its loop tightens
    Wanders,       ///< now up, now down: bridge pin, jack or a wrong pin
};

/// From a string's own movements (StringVerdict::own) over sessions, oldest first, with the standard deviation of each.
/// At least three that count. **Source** common practice, no source.
[[nodiscard]] Habit habitOf(std::span<const Cents> own, Cents deviation);

/// How a string answers to warmth.
struct WarmthResponse {
    double centsPerKelvin = 0.0;
    double uncertainty = 0.0;
};

struct WarmthSighting {
    double kelvin = 0.0; ///< warmer than when it was settled
    Cents moved;
    Cents uncertainty;
};

/// Learned from sightings, beginning with what the make of the string says (core/instrument/string), which is good to
/// a third: the case moves too.
[[nodiscard]] WarmthResponse warmthResponse(double fromMake,
                                            std::span<const WarmthSighting> sightings);

/// What a string is expected to do until later.
struct ExpectedMove {
    Cents by;
    Cents uncertainty;
};

/// **Range** kelvin ± kelvinUncertainty warmer then than now; days from now.
[[nodiscard]] ExpectedMove expectedMove(const WarmthResponse& response,
                                        double kelvin,
                                        double kelvinUncertainty,
                                        const DriftRate& rate,
                                        double days);

enum class Chase {
    LeaveIt,     ///< it will be in place by then
    HearItLater, ///< cannot be told yet
    TuneIt,
};

/// Whether a string that is off now is worth the hammer for then. **Range** tolerance > 0.
[[nodiscard]] Chase
worthChasing(Cents deviation, Cents uncertainty, const ExpectedMove& until, Cents tolerance);

} // namespace quillbench
