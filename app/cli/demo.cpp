#include "app/cli/command.hpp"
#include "app/cli/demo_keeper.hpp"
#include "app/cli/demo_report.hpp"
#include "core/instrument/examples.hpp"
#include "core/support/excerpt.hpp"
#include "core/temperament/catalogue.hpp"
#include "core/workflow/whole_plan.hpp"

#include <unistd.h>

#include <cmath>
#include <cstdio>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace quillbench::cli {

namespace {

struct DemoOptions {
    std::string instrument = "double-8-8-4";
    std::string choir = "8";
    std::string lowest = "C4";
    std::string temperament = "vallotti";
    std::optional<double> a4;
    double outBy = 25.0; ///< cents
    std::uint64_t seed = 1;
    bool whole = false;
    bool mishaps = false;
    bool byEar = false;
    bool felt = false;
    bool json = false;
};

/// Held nearer than people are, so that what the ear can do shows.
constexpr Cents kWholeTolerance{0.25};
constexpr std::size_t kOctavePlucks = 400;

int fail(const std::string& text) {
    std::fprintf(stderr, "quillbench-cli demo: %s\n", text.c_str());
    return kWrongCommandLine;
}

void showProgress(const ScriptedSession& scripted) {
    if (isatty(STDERR_FILENO) == 0 && scripted.plucks() % 50 != 0) {
        return; // a log wants fewer lines than a terminal
    }
    const Session& session = scripted.session();
    std::fprintf(stderr,
                 "\rtuning: %zu of %zu steps done, %zu plucks ",
                 session.countOf(StepState::Settled) + session.countOf(StepState::Kept),
                 session.progress.size(),
                 scripted.plucks());
    std::fflush(stderr);
}

/// Pins as they are: a little backlash, some twist that goes back, now and then a jump.
PinBehaviour realPins() {
    return PinBehaviour{0.02, 0.2, 0.004};
}

ScriptedSettings settingsFor(const Instrument& instrument,
                             const FactsOfString& factsOf,
                             const DemoOptions& options) {
    ScriptedSettings settings;
    settings.seed = options.seed;
    settings.byEar = options.byEar;
    settings.instrument.seed = options.seed;
    settings.instrument.room.noise = Decibel::fromAmplitude(3e-4);
    settings.instrument.registersOn.assign(instrument.registers.size(), false);
    if (options.whole) {
        settings.instrument.pins = realPins();
    } else {
        settings.mostPlucks = kOctavePlucks;
    }
    Random random(options.seed);
    for (std::size_t c = 0; c < instrument.choirs.size(); ++c) {
        auto& strings = settings.instrument.pitches.emplace_back();
        for (std::size_t s = 0; s < instrument.choirs[c].strings.size(); ++s) {
            strings.push_back(transpose(factsOf({c, s}).target,
                                        Cents(random.uniform(-options.outBy, options.outBy))));
        }
    }
    return settings;
}

/// A false beat, a pin that slips, a hammer on the wrong pin, and a kill in the middle.
void addMishaps(ScriptedSettings& settings, const Instrument& instrument, const TuningPlan& plan) {
    const auto string = [&](const char* note) {
        return stringOf(instrument, plan.choir, *parseNote(note));
    };
    if (const auto falseBeat = string("G4")) {
        settings.instrument.faults.push_back({StringFault::Kind::FalseBeat, *falseBeat, 2.0});
    }
    settings.mishaps.slips = string("G3");
    if (const auto wrong = string("D3")) {
        settings.mishaps.wrongPin = plan.stepOf(*wrong);
    }
    settings.mishaps.powerCut = 300;
}

Result<TuningPlan> planFor(const Instrument& instrument,
                           const TunedScale& scale,
                           const DemoOptions& options,
                           const FactsOfString& factsOf) {
    const auto choir = choirOf(instrument, options.choir);
    if (!choir) {
        return failure(ErrorCode::BadArgument,
                       "this instrument has no choir '" + excerpt(options.choir) +
                           "'; try --choir 8");
    }
    if (options.whole) {
        PlanOptions wanted;
        wanted.reference = *choir;
        wanted.feltOnSilenced = options.felt;
        wanted.tolerances = {kWholeTolerance, kWholeTolerance, kWholeTolerance, Cents(4.0)};
        return planSession(instrument, scale, wanted, factsOf);
    }
    const auto lowest = parseNote(options.lowest);
    if (!lowest) {
        return failure(ErrorCode::BadArgument, lowest.error().text);
    }
    PlanOptions wanted;
    wanted.reference = *choir;
    wanted.bearingsFrom = *lowest;
    return planFirstOctave(instrument, wanted, factsOf);
}

int run(const DemoOptions& options) {
    const Instrument* instrument = findExample(options.instrument);
    if (instrument == nullptr) {
        return fail("no instrument '" + excerpt(options.instrument) + "'; the examples are " +
                    exampleIds());
    }
    const Temperament* temperament = findTemperament(options.temperament);
    if (temperament == nullptr) {
        return fail("no temperament '" + excerpt(options.temperament) +
                    "'; 'quillbench-cli temperament' lists them");
    }
    const TunedScale scale{
        *temperament,
        {Hertz(options.a4.value_or(instrument->pitchStandardHz)), {{Letter::A, 0}, 4}}};
    const FactsOfString factsOf = factsFor(*instrument, scale);
    Result<TuningPlan> plan = planFor(*instrument, scale, options, factsOf);
    if (!plan) {
        return fail(plan.error().text);
    }
    ScriptedSettings settings = settingsFor(*instrument, factsOf, options);
    if (options.mishaps) {
        addMishaps(settings, *instrument, *plan);
    }
    std::unique_ptr<DemoKeeper> keeper;
    if (options.mishaps) {
        auto started = DemoKeeper::start(*instrument);
        if (!started) {
            return fail(started.error().text);
        }
        keeper = std::move(started).value();
        settings.keep = [&keeper](const SessionEvent& event) { keeper->keep(event); };
        settings.takeUp = [&keeper] { return keeper->killAndRead(); };
    }
    ScriptedSession scripted(*instrument, std::move(*plan), std::move(settings));
    const bool done = scripted.run(showProgress);
    std::fputc('\n', stderr);
    if (keeper && !keeper->trouble().empty()) {
        return fail(keeper->trouble());
    }
    const DemoReport report(scripted, *instrument, done, keeper ? keeper->kept() : 0);
    if (options.json) {
        report.printJson();
    } else if (options.whole) {
        report.printSummary();
    } else {
        report.printTable();
    }
    return done ? kDone : kNothingToMeasure;
}

} // namespace

void addDemo(CLI::App& app, int& exitCode) {
    auto options = std::make_shared<DemoOptions>();
    CLI::App* command = app.add_subcommand(
        "demo", "Tune the virtual instrument by a scripted player, one octave or the whole");
    command->add_option("--instrument", options->instrument, "An example's id");
    command->add_option("--choir", options->choir, "Choir to tune (first): 8, 8b, 4, 16");
    command->add_option("--lowest", options->lowest, "Lowest key of the octave, such as C4");
    command->add_option("--temperament", options->temperament, "What it is tuned to");
    command->add_option("--a4", options->a4, "Hz; the instrument's own without it")
        ->check(CLI::Range(200.0, 1000.0));
    command->add_option("--out-by", options->outBy, "Cents: how far out of tune it is at most")
        ->check(CLI::Range(0.0, 45.0));
    command->add_option("--seed", options->seed, "Of the mistuning, the strings and the hand");
    command->add_flag(
        "--whole", options->whole, "Every choir, from the run-through to the recheck");
    command->add_flag("--mishaps",
                      options->mishaps,
                      "A false beat, a slipping pin, a wrong pin and a kill on the way");
    command->add_flag("--by-ear",
                      options->byEar,
                      "The bearings by meter, then octaves and choirs by their beats");
    command->add_flag("--felt",
                      options->felt,
                      "With --whole: felt between strings that are off, so that none rings along");
    command->add_flag("--json", options->json, "One JSON object on standard output");
    addExamples(*command,
                {"demo",
                 "demo --instrument spinet --temperament meantone-quarter --lowest C4",
                 "demo --whole --mishaps"});
    command->callback([options, &exitCode] { exitCode = run(*options); });
}

} // namespace quillbench::cli
