#include "core/virtual/days_pass.hpp"

#include "core/drift/drift_fit.hpp"
#include "core/support/contract.hpp"
#include "core/support/random.hpp"

#include <cmath>

namespace quillbench {

namespace {

// Standard deviations; cents after a day, growing with the root of the days.
constexpr double kWholeAfterADay = 0.6;
constexpr double kChoirAfterADay = 0.25;
constexpr double kStringAfterADay = 0.06;
constexpr double kKelvinOfTheDay = 1.0; // whatever the days
constexpr double kSlippingPins = 0.05;
constexpr double kLeastSlip = 4.0; // cents
constexpr double kMostSlip = 12.0;

} // namespace

std::map<StringId, Cents>
driftOfDays(const Instrument& instrument, double days, std::uint64_t seed) {
    EXPECTS(days >= 0.0 && days <= 365.0);
    Random random(seed);
    const double grown = std::sqrt(days);
    const double whole = grown * kWholeAfterADay * random.normal();
    const double kelvin = kKelvinOfTheDay * random.normal();
    std::map<StringId, Cents> drift;
    for (std::size_t choir = 0; choir < instrument.choirs.size(); ++choir) {
        const double beside = grown * kChoirAfterADay * random.normal();
        for (std::size_t course = 0; course < instrument.choirs[choir].strings.size(); ++course) {
            const StringId string{choir, course};
            const Movement make = movementOf(instrument, string, Cents(0.0), Cents(1.0));
            const double own = grown * kStringAfterADay * random.normal();
            const bool slips = random.uniform(0.0, 1.0) < kSlippingPins;
            const double slip = slips ? random.uniform(kLeastSlip, kMostSlip) : 0.0;
            drift[string] = Cents(whole + beside + kelvin * make.centsPerKelvin + own - slip);
        }
    }
    return drift;
}

} // namespace quillbench
