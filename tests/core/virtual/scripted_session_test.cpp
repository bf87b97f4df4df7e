#include "core/instrument/examples.hpp"
#include "core/temperament/catalogue.hpp"
#include "core/virtual/scripted_session.hpp"
#include "core/workflow/whole_plan.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace quillbench;

namespace {

/// The bearings and what follows, of an instrument up to 25 cents out, with pins that stick and slip a little.
ScriptedSession
scriptedAt(const Instrument& instrument, std::size_t steps, const ScriptedMishaps& mishaps) {
    const TunedScale scale{*findTemperament("vallotti"),
                           {Hertz(instrument.pitchStandardHz), {{Letter::A, 0}, 4}}};
    const FactsOfString facts = factsFor(instrument, scale);
    PlanOptions options;
    options.runThrough = options.warmUp = options.firstLook = options.recheck = false;
    options.tolerances = {Cents(0.4), Cents(0.4), Cents(0.4), Cents(4.0)};
    auto plan = planSession(instrument, scale, options, facts);
    REQUIRE(plan);
    plan->steps.resize(std::min(steps, plan->steps.size()));
    ScriptedSettings settings;
    settings.mishaps = mishaps;
    settings.mostPlucks = 40 * steps;
    settings.instrument.room.noise = Decibel::fromAmplitude(3e-4);
    settings.instrument.pins = PinBehaviour{0.02, 0.2, 0.004};
    Random random(5);
    for (std::size_t choir = 0; choir < instrument.choirs.size(); ++choir) {
        auto& pitches = settings.instrument.pitches.emplace_back();
        for (std::size_t course = 0; course < instrument.choirs[choir].strings.size(); ++course) {
            pitches.push_back(
                transpose(facts({choir, course}).target, Cents(random.uniform(-25.0, 25.0))));
        }
    }
    return ScriptedSession(instrument, *plan, settings);
}

} // namespace

TEST_CASE("a scripted player is told of the wrong pin, survives a power cut and ends in tune",
          "[unit]") {
    ScriptedMishaps mishaps;
    mishaps.wrongPin = 1;
    mishaps.powerCut = 25;
    ScriptedSession scripted = scriptedAt(*findExample("double-8-8-4"), 4, mishaps);
    CHECK(scripted.run());
    REQUIRE(scripted.wrongPinPlucks());
    CHECK(*scripted.wrongPinPlucks() <= 10);
    for (const JudgedString& one : scripted.judge()) {
        INFO("step " << one.step << ", before " << one.before.value());
        CHECK(std::abs(one.after.value()) < 0.6);
    }
}
