#include "core/drift/drift_history.hpp"
#include "core/instrument/examples.hpp"
#include "core/support/random.hpp"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace quillbench;

namespace {

const StringId kSlipping{2, 30};

/// A 4′ that sinks by a tenth of a cent a day, one string of it by 3 cents more at every look; retuned after each, or
/// settled once and looked at again and again. The truth is known.
std::vector<DriftLook> looksAt4Foot(int looks, bool retuned) {
    const Instrument& instrument = *findExample("double-8-8-4");
    Random random(7);
    std::vector<DriftLook> history;
    for (int look = 1; look <= looks; ++look) {
        DriftLook one;
        const double days = retuned ? 14.0 : 14.0 * look;
        for (std::size_t course = 0; course < 61; ++course) {
            const StringId string{2, course};
            const double slips = string == kSlipping ? -3.0 * (retuned ? 1 : look) : 0.0;
            const Cents moved(-0.1 * days + slips + 0.15 * random.normal());
            one.movements.push_back(movementOf(instrument, string, moved, Cents(0.15)));
            one.days.push_back(days);
            one.settledOn.push_back(retuned ? 14.0 * (look - 1) : 0.0);
        }
        history.push_back(std::move(one));
    }
    return history;
}

const StringTendency& ofSlipping(const Tendencies& tendencies) {
    const auto found =
        std::find_if(tendencies.strings.begin(),
                     tendencies.strings.end(),
                     [](const StringTendency& one) { return one.rate.string == kSlipping; });
    REQUIRE(found != tendencies.strings.end());
    return *found;
}

} // namespace

TEST_CASE("a pin that slips at every look is found, however often the rest was retuned", "[unit]") {
    const Instrument& instrument = *findExample("double-8-8-4");
    for (const bool retuned : {true, false}) {
        const Tendencies tendencies =
            tendenciesOf(instrument, looksAt4Foot(5, retuned), Cents(2.0));
        CHECK(tendencies.looks == 5);
        CHECK(tendencies.choirs[2].value == Approx(-0.1).margin(0.03));
        const StringTendency& slipping = ofSlipping(tendencies);
        CHECK(slipping.habit == Habit::PinSlips);
        for (const Cents move : slipping.own) {
            CHECK(move.value() == Approx(-3.0).margin(1.0));
        }
        const auto accused =
            std::count_if(tendencies.strings.begin(),
                          tendencies.strings.end(),
                          [](const StringTendency& one) { return one.habit != Habit::Steady; });
        CHECK(accused == 1);
    }
}

TEST_CASE("a recheck within the hour after tuning says nothing of rates", "[unit]") {
    const Instrument& instrument = *findExample("double-8-8-4");
    std::vector<DriftLook> looks = looksAt4Foot(1, true);
    std::fill(looks[0].days.begin(), looks[0].days.end(), 0.02);
    const Tendencies tendencies = tendenciesOf(instrument, looks, Cents(2.0));
    CHECK(tendencies.looks == 0);
    CHECK(tendencies.strings.empty());
    CHECK_FALSE(tendencies.due);
}
