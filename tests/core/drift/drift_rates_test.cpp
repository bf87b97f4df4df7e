#include "core/drift/drift_rates.hpp"
#include "core/instrument/examples.hpp"
#include "core/support/random.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <map>

using namespace quillbench;

TEST_CASE("rates lie within twice their uncertainty as often as they should", "[unit]") {
    // The truth is known: rates are drawn for each choir, strings stray by 0.2 cent, readings by 0.2.
    const Instrument& instrument = *findExample("double-8-8-4");
    Random random(31);
    int inside = 0;
    int all = 0;
    for (int run = 0; run < 10; ++run) {
        std::vector<DriftSighting> sightings;
        std::map<StringId, double> truth;
        for (std::size_t choir = 0; choir < 3; ++choir) {
            const double mean = choir == 2 ? -0.15 : -0.05;
            for (std::size_t course = 0; course < 61; ++course) {
                const StringId string{choir, course};
                truth[string] = mean + 0.06 * random.normal();
                for (const double days : {7.0, 21.0, 14.0}) {
                    const double noise = std::hypot(0.2, 0.2) * random.normal();
                    sightings.push_back(
                        {string, days, Cents(truth[string] * days + noise), Cents(0.2)});
                }
            }
        }
        const DriftRates rates = driftRates(instrument, sightings);
        CHECK(rates.choirs[2].value == Approx(-0.15).margin(0.03));
        CHECK(rates.choirs[0].value == Approx(-0.05).margin(0.03));
        CHECK(rates.scatterOfChoirs[0] == Approx(0.06).margin(0.03));
        for (const DriftRate& one : rates.strings) {
            inside += std::abs(one.centsPerDay - truth[one.string]) <= 2.0 * one.uncertainty;
            ++all;
        }
    }
    const double share = static_cast<double>(inside) / all;
    CHECK(share > 0.92);
    CHECK(share < 0.99);
}

TEST_CASE("a string seen once is drawn towards its choir", "[unit]") {
    const Instrument& instrument = *findExample("double-8-8-4");
    std::vector<DriftSighting> sightings;
    for (std::size_t course = 0; course < 30; ++course) {
        sightings.push_back({{0, course}, 10.0, Cents(-1.0), Cents(0.2)});
    }
    sightings.push_back({{0, 40}, 1.0, Cents(1.0), Cents(0.2)});
    const DriftRates rates = driftRates(instrument, sightings);
    const auto one = std::find_if(rates.strings.begin(),
                                  rates.strings.end(),
                                  [](const DriftRate& r) { return r.string.course == 40; });
    REQUIRE(one != rates.strings.end());
    CHECK(one->centsPerDay < 0.2);
    CHECK(one->centsPerDay > -0.15);
}

TEST_CASE("a retune is due when a tenth has left its place, not when all sink together", "[unit]") {
    DriftRates rates;
    for (std::size_t course = 0; course < 60; ++course) {
        rates.strings.push_back({{0, course}, -0.2, 0.002, 5});
    }
    CHECK_FALSE(retuneDue(rates, Cents(2.0)));
    for (std::size_t course = 0; course < 8; ++course) {
        rates.strings[course].centsPerDay = -0.3;
    }
    // Eight of sixty part from the rest by 0.1 cent a day: 2 cents after 20 days.
    const auto due = retuneDue(rates, Cents(2.0));
    REQUIRE(due);
    CHECK(due->days == Approx(20.0).margin(3.0));
    CHECK(due->earliest <= due->days);
    CHECK(due->latest >= due->days);
    CHECK_FALSE(retuneDue({}, Cents(2.0)));
}

TEST_CASE("a pin that slips, wire that stretches and a string that wanders are told apart",
          "[unit]") {
    // Common practice, no source.
    const auto habit = [](const std::vector<double>& cents) {
        std::vector<Cents> own;
        own.reserve(cents.size());
        for (const double one : cents) {
            own.emplace_back(one);
        }
        return habitOf(own, Cents(0.3));
    };
    CHECK(habit({-3.0, -2.4, -3.6, -2.9}) == Habit::PinSlips);
    CHECK(habit({-8.0, -5.0, -2.5, -1.2}) == Habit::WireStretches);
    CHECK(habit({-3.0, 2.5, -2.0, 3.1}) == Habit::Wanders);
    CHECK(habit({-0.2, 0.3, -3.0, 0.1}) == Habit::Steady);
    CHECK(habit({-3.0, -2.0}) == Habit::Steady);
}

TEST_CASE("cents a kelvin are learned from the make on, and a warm hall is not chased", "[unit]") {
    const std::vector<WarmthSighting> seen{{4.0, Cents(-10.0), Cents(0.2)},
                                           {-3.0, Cents(7.6), Cents(0.2)}};
    const WarmthResponse none = warmthResponse(-2.0, {});
    CHECK(none.centsPerKelvin == Approx(-2.0));
    CHECK(none.uncertainty == Approx(0.66));
    const WarmthResponse learned = warmthResponse(-2.0, seen);
    CHECK(learned.centsPerKelvin == Approx(-2.5).margin(0.05));
    CHECK(learned.uncertainty < 0.1);
    // The hall is 2 kelvin too warm now and will be as it was: 5 cents flat is nothing to tune.
    const DriftRate still{{0, 0}, 0.0, 0.01, 3};
    const ExpectedMove back = expectedMove(learned, -2.0, 0.2, still, 0.1);
    CHECK(back.by.value() == Approx(5.0).margin(0.1));
    CHECK(worthChasing(Cents(-5.0), Cents(0.2), back, Cents(1.0)) == Chase::LeaveIt);
    CHECK(worthChasing(Cents(-9.0), Cents(0.2), back, Cents(1.0)) == Chase::TuneIt);
    const ExpectedMove unsure = expectedMove(learned, -2.0, 1.0, still, 0.1);
    CHECK(worthChasing(Cents(-5.0), Cents(0.2), unsure, Cents(1.0)) == Chase::HearItLater);
}
