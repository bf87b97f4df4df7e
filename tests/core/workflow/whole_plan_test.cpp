#include "core/instrument/examples.hpp"
#include "core/support/random.hpp"
#include "core/temperament/catalogue.hpp"
#include "core/workflow/whole_plan.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <map>
#include <set>

using namespace quillbench;

namespace {

TunedScale scaleOf(const char* temperament, const Instrument& instrument) {
    const Temperament* found = findTemperament(temperament);
    REQUIRE(found != nullptr);
    return {*found, {Hertz(instrument.pitchStandardHz), {{Letter::A, 0}, 4}}};
}

TuningPlan
planOf(const Instrument& instrument, const char* temperament, const PlanOptions& options) {
    const TunedScale scale = scaleOf(temperament, instrument);
    const auto plan =
        planSession(instrument, scale, options, factsFor(instrument, scale, options.position));
    INFO(instrument.id << " " << temperament);
    if (!plan) {
        FAIL(plan.error().text);
    }
    return *plan;
}

/// What every plan has to hold; says what it does not.
void holds(const Instrument& instrument, const TuningPlan& plan, const PlanOptions& options) {
    std::set<StringId> set;
    std::map<StringId, int> forGood;
    const auto& keys = instrument.compass.keys;
    for (std::size_t i = 0; i < plan.steps.size(); ++i) {
        const TuningStep& step = plan.steps[i];
        INFO(instrument.id << " step " << i << " " << stringLabel(instrument, step.string));
        for (const auto& pair : {step.pair, step.alike}) {
            if (pair) {
                CHECK(set.count(pair->against) == 1);
                CHECK(pair->against != step.string);
                if (step.setsString()) {
                    CHECK(std::abs(keys[pair->key].column - keys[step.key].column) <= 7.2);
                }
            }
        }
        for (const std::size_t need : step.needs) {
            CHECK(need < i);
            CHECK(plan.steps[need].setsString());
        }
        if (step.setsString()) {
            set.insert(step.string);
        }
        for (const IntervalCheck& check : step.checks) {
            CHECK(set.count(check.lower) == 1);
            CHECK(set.count(check.upper) == 1);
        }
        if (step.work == StepWork::Set) {
            CHECK(++forGood[step.string] == 1);
            const auto course = courseOf(instrument, step.key, step.alone.registration.position);
            CHECK(course == step.string.course);
        } else if (step.work == StepWork::SetForNow) {
            CHECK(forGood.count(step.string) == 0);
        }
    }
    std::size_t strings = 0;
    for (std::size_t choir = 0; choir < instrument.choirs.size(); ++choir) {
        const bool left = std::find(options.leaveAlone.begin(), options.leaveAlone.end(), choir) !=
                          options.leaveAlone.end();
        strings += left ? 0 : instrument.choirs[choir].strings.size();
    }
    CHECK(forGood.size() == strings);
}

const TuningStep& settingStep(const TuningPlan& plan,
                              const Instrument& instrument,
                              const char* choir,
                              const char* note) {
    const auto string = stringOf(instrument, *choirOf(instrument, choir), *parseNote(note));
    REQUIRE(string);
    const auto step = plan.stepOf(*string);
    REQUIRE(step);
    return plan.steps[*step];
}

} // namespace

TEST_CASE("every example has a plan in which no step relies on a string that is not set",
          "[unit]") {
    for (const Instrument& instrument : exampleInstruments()) {
        for (const char* temperament : {"vallotti", "meantone-quarter", "equal"}) {
            for (const bool byEar : {false, true}) {
                PlanOptions options;
                if (byEar) {
                    options.bearingPlan = "computed";
                }
                holds(instrument, planOf(instrument, temperament, options), options);
            }
        }
    }
}

TEST_CASE("every published bearing plan fits into a whole session", "[unit]") {
    const Instrument& instrument = *findExample("double-8-8-4");
    for (const Temperament& temperament : catalogue()) {
        for (const PublishedPlan& published : publishedPlansFor(temperament)) {
            PlanOptions options;
            options.bearingPlan = std::string(published.id);
            const TunedScale scale = scaleOf(temperament.id().c_str(), instrument);
            const auto plan = planSession(instrument, scale, options, factsFor(instrument, scale));
            INFO(temperament.id() << " " << published.id);
            REQUIRE(plan);
            holds(instrument, *plan, options);
        }
    }
}

TEST_CASE("whatever the options, every string of the choirs to be tuned is set once", "[unit]") {
    Random random(7);
    const auto toss = [&random] { return random.uniform() < 0.5; };
    for (int run = 0; run < 60; ++run) {
        const auto& all = exampleInstruments();
        const Instrument& instrument = all[static_cast<std::size_t>(random.uniform() * 6.0)];
        PlanOptions options;
        const auto choirs = static_cast<double>(instrument.choirs.size());
        options.reference = static_cast<std::size_t>(random.uniform() * choirs);
        for (std::size_t choir = 0; choir < instrument.choirs.size(); ++choir) {
            if (choir != options.reference && random.uniform() < 0.2) {
                options.leaveAlone.push_back(choir);
            }
            options.expectedMove.push_back(Cents(random.uniform(0.0, 20.0)));
        }
        options.position = instrument.positions[toss() ? 0 : instrument.positions.size() - 1];
        options.bearingsFrom = *parseNote(toss() ? "F3" : "C3");
        options.bearingsOrder = toss() ? StepOrder::FromA : StepOrder::Chromatic;
        options.outward = toss() ? Outward::ByTurns : Outward::UpThenDown;
        if (toss()) {
            options.bearingPlan = "computed";
        }
        const char* temperaments[] = {"werckmeister-3", "meantone-sixth", "kirnberger-3"};
        holds(instrument, planOf(instrument, temperaments[run % 3], options), options);
    }
}

TEST_CASE("the order is listening, bearings, outward, unisons, 4', recheck", "[unit]") {
    // Common practice, no source.
    const Instrument& instrument = *findExample("double-8-8-4");
    const TuningPlan plan = planOf(instrument, "vallotti", {});
    std::vector<Phase> phases;
    for (const TuningStep& step : plan.steps) {
        if (phases.empty() || phases.back() != step.phase) {
            phases.push_back(step.phase);
        }
    }
    CHECK(phases == std::vector<Phase>{Phase::RunThrough,
                                       Phase::WarmUp,
                                       Phase::FirstLook,
                                       Phase::Bearings,
                                       Phase::Outward,
                                       Phase::Unison,
                                       Phase::FourFoot,
                                       Phase::Recheck});
    const auto warmUp = std::find_if(plan.steps.begin(), plan.steps.end(), [](const auto& step) {
        return step.phase == Phase::WarmUp;
    });
    REQUIRE(warmUp->sweep.size() == 3);
    CHECK(warmUp->sweep[2].choir == 2);
}

TEST_CASE("unisons want the coupler on this instrument, the 4' goes with the 8' of its manual",
          "[unit]") {
    const Instrument& instrument = *findExample("double-8-8-4");
    const TuningPlan plan = planOf(instrument, "vallotti", {});
    const TuningStep& unison = settingStep(plan, instrument, "8b", "A3");
    CHECK(unison.together.registration.coupled);
    CHECK(unison.together.registration.on == RegisterSet(0b011));
    CHECK(unison.alone.registration.on == RegisterSet(0b010));
    CHECK_FALSE(unison.alone.registration.coupled);
    const TuningStep& four = settingStep(plan, instrument, "4", "A3");
    CHECK_FALSE(four.together.registration.coupled);
    CHECK(four.together.registration.on == RegisterSet(0b101));
    CHECK(four.pair->against.choir == 0);
    CHECK(four.pair->interval == IntervalKind::Octave);
}

TEST_CASE("a 4' that sounds only with the front 8' is tuned to that", "[unit]") {
    Instrument instrument = *findExample("double-8-8-4");
    instrument.coupler = Coupler::None;
    instrument.registers[2].manual = 1;
    const TuningPlan plan = planOf(instrument, "vallotti", {});
    const TuningStep& four = settingStep(plan, instrument, "4", "A3");
    CHECK(four.pair->against.choir == 1);
    CHECK(four.together.manual == 1);
    // Without a coupler the two 8' are played from both manuals at once.
    CHECK(settingStep(plan, instrument, "8b", "A3").together.otherManual.has_value());
}

TEST_CASE("a choir that cannot be silenced wants felt while another is tuned", "[unit]") {
    Instrument instrument = *findExample("single-8-8");
    instrument.choirs[0].silencing = Silencing::NotAtAll;
    PlanOptions options;
    options.reference = 1;
    const TuningPlan plan = planOf(instrument, "vallotti", options);
    CHECK(settingStep(plan, instrument, "8b", "A3").alone.felt == std::vector<std::size_t>{0});
    CHECK(settingStep(plan, instrument, "8", "A3").together.felt.empty());
}

TEST_CASE("felt on what is silenced lies on the choirs whose dampers rise along, and on no other",
          "[unit]") {
    const Instrument& instrument = *findExample("double-8-8-4");
    PlanOptions options;
    const TuningPlan without = planOf(instrument, "vallotti", options);
    options.feltOnSilenced = true;
    const TuningPlan plan = planOf(instrument, "vallotti", options);
    const TuningStep& four = settingStep(plan, instrument, "4", "A3");
    CHECK(settingStep(without, instrument, "4", "A3").alone.felt.empty());
    for (const TuningStep& step : plan.steps) {
        for (const Drawing& drawing : {step.alone, step.together}) {
            for (const std::size_t choir : drawing.felt) {
                CHECK(std::count(drawing.choirs.begin(), drawing.choirs.end(), choir) == 0);
                CHECK(step.work == StepWork::Set);
            }
        }
    }
    // The 4' is played from the manual of an 8', whose dampers rise with its keys.
    REQUIRE_FALSE(four.alone.felt.empty());
    CHECK(instrument.choirs[four.alone.felt.front()].footage == Footage::Eight);
}

TEST_CASE("a dogleg plays with both manuals and needs no coupler", "[unit]") {
    Instrument instrument = *findExample("double-8-8-4");
    instrument.coupler = Coupler::Dogleg;
    instrument.registers[1].dogleg = true;
    const TuningPlan plan = planOf(instrument, "vallotti", {});
    const TuningStep& unison = settingStep(plan, instrument, "8b", "A3");
    CHECK_FALSE(unison.together.registration.coupled);
    CHECK_FALSE(unison.together.otherManual);
    CHECK(unison.together.manual == 0);
}

TEST_CASE("a string that no key reaches here is set at another position", "[unit]") {
    const Instrument& instrument = *findExample("single-8-8");
    const TuningPlan plan = planOf(instrument, "vallotti", {});
    const StringId top{0, instrument.choirs[0].strings.size() - 1};
    const TuningStep& step = plan.steps[*plan.stepOf(top)];
    CHECK(step.alone.registration.position == 1);
    CHECK(step.key == instrument.compass.keys.size() - 1);
}

TEST_CASE("the short octave is tuned to the octave above by its sounding notes", "[unit]") {
    const Instrument& instrument = *findExample("virginal");
    const TuningPlan plan = planOf(instrument, "meantone-quarter", {});
    const TuningStep& low = settingStep(plan, instrument, "8", "C2");
    REQUIRE(low.pair);
    CHECK(low.pair->note == *parseNote("C3"));
    CHECK_FALSE(low.pair->tunedIsUpper);
}

TEST_CASE("octaves in the bass are listened to higher up, and what stiffness does is allowed for",
          "[unit]") {
    StringFacts tuned{Hertz(43.65), 2e-5, Cents(300.0), {}};
    StringFacts against{Hertz(87.3), 1e-5, Cents(300.0), {}};
    const PairAim bass =
        pairAim(tuned, against, IntervalKind::Octave, false, BeatRate(0.0), Cents(1.0));
    CHECK(bass.pair == PartialPair{8, 4});
    // Closed form: partial 8 of the lower and 4 of the upper meet.
    const double lower = std::log2((1 + 64 * 2e-5) / (1 + 2e-5));
    const double upper = std::log2((1 + 16 * 1e-5) / (1 + 1e-5));
    CHECK(bass.offset.value() == Approx(-600.0 * (lower - upper)).margin(1e-9));
    // One cent at 8 x 43.65 Hz is 0.2017 beats a second (closed form).
    CHECK(bass.tolerance.perSecond() == Approx(0.20171).margin(1e-4));
    // A unison too; a tempered fifth is heard where its plan counts it.
    CHECK(pairAim(tuned, tuned, IntervalKind::Unison, true, BeatRate(0.0), Cents(1.0)).pair ==
          PartialPair{8, 8});
    against.target = Hertz(65.5);
    CHECK(pairAim(tuned, against, IntervalKind::Fifth, false, BeatRate(0.1), Cents(1.0)).pair ==
          PartialPair{3, 2});
    tuned.target = Hertz(415.0);
    against.target = Hertz(830.0);
    CHECK(pairAim(tuned, against, IntervalKind::Octave, false, BeatRate(0.0), Cents(1.0)).pair ==
          PartialPair{2, 1});
}

TEST_CASE("octaves are checked by two intervals that feel alike when they are pure", "[unit]") {
    const Instrument& instrument = *findExample("double-8-8-4");
    const TuningPlan plan = planOf(instrument, "equal", {});
    const TuningStep& down = settingStep(plan, instrument, "8", "C3");
    REQUIRE(down.checks.size() == 2);
    // A fourth n-m and a fifth m-n' beat alike if 4n = 2n': identity of partials.
    CHECK(std::abs(down.checks[0].beat.perSecond()) ==
          Approx(std::abs(down.checks[1].beat.perSecond())).epsilon(1e-6));
    for (const TuningStep& step : plan.steps) {
        for (const IntervalCheck& check : step.checks) {
            CHECK(std::abs(check.beat.perSecond()) < 10.0);
        }
    }
}

TEST_CASE("people are held to a cent in the middle and two at the ends", "[unit]") {
    const Instrument& instrument = *findExample("double-8-8-4");
    const TuningPlan plan = planOf(instrument, "vallotti", {});
    CHECK(settingStep(plan, instrument, "8", "A3").tolerance.value() == Approx(1.0));
    CHECK(settingStep(plan, instrument, "8", "F1").tolerance.value() == Approx(2.0));
    CHECK(settingStep(plan, instrument, "8", "F6").tolerance.value() == Approx(2.0));
}

TEST_CASE("a choir far out gets a rough pass before it is set", "[unit]") {
    const Instrument& instrument = *findExample("double-8-8-4");
    PlanOptions options;
    options.expectedMove = {Cents(18.0), Cents(4.0), Cents(-12.0)};
    const TuningPlan plan = planOf(instrument, "vallotti", options);
    std::map<std::size_t, int> rough;
    for (const TuningStep& step : plan.steps) {
        rough[step.string.choir] += step.phase == Phase::RoughPass ? 1 : 0;
    }
    CHECK(rough[0] == 61);
    CHECK(rough[1] == 0);
    CHECK(rough[2] == 61);
}

TEST_CASE("what cannot be planned is said in one line", "[unit]") {
    const Instrument& instrument = *findExample("double-8-8-4");
    const TunedScale scale = scaleOf("vallotti", instrument);
    const auto errorOf = [&](const PlanOptions& options) {
        const auto plan = planSession(instrument, scale, options, factsFor(instrument, scale));
        REQUIRE_FALSE(plan);
        return plan.error().text;
    };
    PlanOptions options;
    options.reference = 3;
    CHECK(errorOf(options).find("reference choir") != std::string::npos);
    options = {};
    options.leaveAlone = {0};
    CHECK(errorOf(options).find("another reference") != std::string::npos);
    options = {};
    options.position = 2;
    CHECK(errorOf(options).find("position 2") != std::string::npos);
    options = {};
    options.bearingPlan = "none-such";
    CHECK(errorOf(options).find("none-such") != std::string::npos);
}
