#include "app/cli/command.hpp"
#include "core/analysis/analyser.hpp"
#include "core/instrument/examples.hpp"
#include "core/instrument/string.hpp"
#include "core/temperament/catalogue.hpp"
#include "core/virtual/scripted_player.hpp"
#include "core/virtual/virtual_instrument.hpp"
#include "core/workflow/guidance.hpp"
#include "core/workflow/plan.hpp"
#include "core/workflow/session.hpp"

#include <nlohmann/json.hpp>
#include <unistd.h>

#include <array>
#include <cmath>
#include <cstdio>
#include <map>
#include <memory>
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
    bool json = false;
};

constexpr SampleRate kRate(48000.0);
constexpr Seconds kBetweenPlucks{0.25}; ///< the hand moves to the hammer, or rests
constexpr Seconds kKeyDown{1.3};
constexpr Seconds kAfterRelease{0.1};
constexpr Seconds kPatience{3.0}; ///< for the last word on a pluck
constexpr std::size_t kMostPlucks = 400;

/// The virtual instrument, the live ear and the session, on the sound's own clock.
class Demo {
public:
    Demo(const Instrument& instrument,
         std::size_t choir,
         TuningPlan plan,
         std::vector<std::vector<Hertz>> pitches,
         const DemoOptions& options)
        : plan_(std::make_shared<const TuningPlan>(std::move(plan))),
          session_(begin(plan_)),
          virtual_(instrument, settingsFor(instrument, choir, std::move(pitches), options)),
          analyser_(kRate, ClockCalibration{}),
          player_(options.seed, 0.25) {
        for (const TuningStep& step : plan_->steps) {
            strings_.push_back({step.string, step.facts.target, step.facts.inharmonicity});
            before_[step.string] = virtual_.restPitch(step.string);
        }
    }

    /// Tunes until every string has settled or the patience ends; false: not all settled.
    bool run() {
        while (session_.asked() && plucks_ < kMostPlucks) {
            const TuningStep& step = plan_->steps[*session_.asked()];
            const Guidance guidance = guide(session_);
            if (guidance.step == *session_.asked()) {
                if (const auto degrees = player_.turn(guidance)) {
                    command(VirtualCommand::Kind::TurnPin, step, degrees->value());
                    command(VirtualCommand::Kind::TurnPin, step, 0.0);
                }
            }
            pluck(step);
            showProgress();
        }
        std::fputc('\n', stderr);
        return session_.countOf(StepState::Settled) == plan_->steps.size();
    }

    struct Row {
        Note note;
        Cents before;
        Cents
            after; ///< sustain pitch of the last pluck against its target, from the instrument itself
        Cents reading; ///< what was kept
        Cents readingUncertainty;
        std::size_t plucks = 0;
    };

    [[nodiscard]] std::vector<Row> rows() {
        std::vector<Row> rows;
        for (std::size_t i = 0; i < plan_->steps.size(); ++i) {
            const TuningStep& step = plan_->steps[i];
            Row row;
            row.note = step.note;
            row.before = interval(step.facts.target, before_[step.string]);
            row.plucks = plucksOf_[step.string];
            const auto heard = sustain_.find(step.string);
            row.after =
                heard == sustain_.end() ? row.before : interval(step.facts.target, heard->second);
            if (const auto& kept = session_.progress[i].kept) {
                row.reading = kept->deviation;
                row.readingUncertainty = kept->uncertainty;
            }
            rows.push_back(row);
        }
        return rows;
    }

    [[nodiscard]] Seconds elapsed() const { return kRate.duration(virtual_.now() - FrameIndex(0)); }

    [[nodiscard]] std::size_t plucks() const { return plucks_; }

private:
    static VirtualSettings settingsFor(const Instrument& instrument,
                                       std::size_t choir,
                                       std::vector<std::vector<Hertz>> pitches,
                                       const DemoOptions& options) {
        VirtualSettings settings;
        settings.sampleRate = kRate;
        settings.seed = options.seed;
        settings.pitches = std::move(pitches);
        settings.room.noise = Decibel::fromAmplitude(3e-4);
        settings.registersOn.assign(instrument.registers.size(), false);
        if (const auto reg = soloRegister(instrument, choir)) {
            settings.registersOn[*reg] = true;
        }
        return settings;
    }

    void command(VirtualCommand::Kind kind, const TuningStep& step, double amount) {
        VirtualCommand what;
        what.kind = kind;
        what.at = virtual_.now();
        what.string = step.string;
        what.key = step.key;
        what.amount = amount;
        virtual_.apply(what);
    }

    void pluck(const TuningStep& step) {
        analyser_.setTarget(std::make_shared<const AnalysisTarget>(listenFor(session_, strings_)));
        hear(kBetweenPlucks);
        heard_ = false;
        command(VirtualCommand::Kind::PluckString, step, 0.0);
        hear(kKeyDown);
        command(VirtualCommand::Kind::DampString, step, 0.0);
        // The hand does nothing before the string has been read.
        const FrameIndex patienceEnds = virtual_.now() + kRate.frames(kPatience);
        do {
            hear(kAfterRelease);
        } while (!heard_ && virtual_.now() < patienceEnds);
        ++plucks_;
        ++plucksOf_[step.string];
        while (const auto record = virtual_.takePluck()) {
            sustain_[record->string] = virtual_.truth(*record).sustain;
        }
    }

    void hear(Seconds time) {
        std::array<float, 256> block{};
        const FrameIndex end = virtual_.now() + kRate.frames(time);
        while (virtual_.now() < end) {
            const FrameIndex first = virtual_.now();
            virtual_.render(block);
            if (const auto snapshot = analyser_.push({first, block, false})) {
                take(*snapshot);
            }
        }
    }

    void take(const AnalysisSnapshot& snapshot) {
        if (snapshot.finished) {
            heard_ = true;
            session_ = apply(session_,
                             Heard{*snapshot.finished,
                                   snapshot.finished->deviationUncertainty,
                                   kRate.duration(snapshot.finished->pluck - FrameIndex(0))});
        }
    }

    void showProgress() {
        if (isatty(STDERR_FILENO) == 0 && plucks_ % 10 != 0) {
            return; // a log wants fewer lines than a terminal
        }
        const std::size_t done = session_.countOf(StepState::Settled);
        std::fprintf(stderr,
                     "\rtuning: %zu of %zu strings settled, %zu plucks ",
                     done,
                     plan_->steps.size(),
                     plucks_);
        std::fflush(stderr);
    }

    std::shared_ptr<const TuningPlan> plan_;
    Session session_;
    VirtualInstrument virtual_;
    Analyser analyser_;
    ScriptedPlayer player_;
    std::vector<ExpectedString> strings_;
    std::map<StringId, Hertz> before_;
    std::map<StringId, Hertz> sustain_;
    std::map<StringId, std::size_t> plucksOf_;
    std::size_t plucks_ = 0;
    bool heard_ = false;
};

void printTable(Demo& demo) {
    std::printf("%-5s %10s %10s %16s %8s\n", "key", "before", "after", "reading", "plucks");
    for (const Demo::Row& row : demo.rows()) {
        std::printf("%-5s %+7.1f ct %+7.2f ct %+8.2f ±%.2f ct %8zu\n",
                    toAscii(row.note).c_str(),
                    row.before.value(),
                    row.after.value(),
                    row.reading.value(),
                    row.readingUncertainty.value(),
                    row.plucks);
    }
    std::printf("%zu plucks in %.0f s of playing\n", demo.plucks(), demo.elapsed().count());
}

void printJson(Demo& demo, bool settled) {
    nlohmann::ordered_json out{
        {"schema", 1}, {"kind", "demo"}, {"id", nullptr}, {"status", settled ? "ok" : "weak"}};
    out["plucks"] = demo.plucks();
    out["playing_s"] = demo.elapsed().count();
    out["strings"] = nlohmann::ordered_json::array();
    for (const Demo::Row& row : demo.rows()) {
        out["strings"].push_back({{"note", toAscii(row.note)},
                                  {"before_cents", row.before.value()},
                                  {"after_cents", row.after.value()},
                                  {"reading_cents", row.reading.value()},
                                  {"reading_cents_u", row.readingUncertainty.value()},
                                  {"plucks", row.plucks}});
    }
    std::printf("%s\n", out.dump().c_str());
}

int fail(const std::string& text) {
    std::fprintf(stderr, "quillbench-cli demo: %s\n", text.c_str());
    return kWrongCommandLine;
}

int run(const DemoOptions& options) {
    const Instrument* instrument = findExample(options.instrument);
    if (instrument == nullptr) {
        return fail("no instrument '" + options.instrument + "'; the examples are " + exampleIds());
    }
    const auto choir = choirOf(*instrument, options.choir);
    if (!choir) {
        return fail("this instrument has no choir '" + options.choir + "'; try --choir 8");
    }
    const Temperament* temperament = findTemperament(options.temperament);
    if (temperament == nullptr) {
        return fail("no temperament '" + options.temperament +
                    "'; 'quillbench-cli temperament' lists them");
    }
    const auto lowest = parseNote(options.lowest);
    if (!lowest) {
        return fail(lowest.error().text);
    }
    const TunedScale scale{
        *temperament,
        {Hertz(options.a4.value_or(instrument->pitchStandardHz)), {{Letter::A, 0}, 4}}};
    const auto target = [&](StringId string) {
        return targetPitch(*instrument, string, [&](const Note& n) { return scale.pitchOf(n); });
    };
    auto plan =
        planFirstOctave(*instrument, *choir, *lowest, StepOrder::FromA, [&](StringId string) {
            const StringMake& make = instrument->choirs[string.choir].strings[string.course];
            const Hertz pitch = target(string);
            const StringState state = stringState(make, pitch);
            StringFacts facts;
            facts.target = pitch;
            facts.inharmonicity = state.inharmonicity;
            facts.marginLow = Cents(100.0 * state.margin.lowSemitones);
            if (state.centsPerDegree) {
                facts.centsPerDegree = state.centsPerDegree->value();
            }
            return facts;
        });
    if (!plan) {
        return fail(plan.error().text);
    }
    Random random(options.seed);
    std::vector<std::vector<Hertz>> pitches;
    for (std::size_t c = 0; c < instrument->choirs.size(); ++c) {
        auto& strings = pitches.emplace_back();
        for (std::size_t s = 0; s < instrument->choirs[c].strings.size(); ++s) {
            strings.push_back(
                transpose(target({c, s}), Cents(random.uniform(-options.outBy, options.outBy))));
        }
    }
    Demo demo(*instrument, *choir, std::move(*plan), std::move(pitches), options);
    const bool settled = demo.run();
    if (options.json) {
        printJson(demo, settled);
    } else {
        printTable(demo);
    }
    return settled ? kDone : kNothingToMeasure;
}

} // namespace

void addDemo(CLI::App& app, int& exitCode) {
    auto options = std::make_shared<DemoOptions>();
    CLI::App* command = app.add_subcommand(
        "demo", "Tune one octave of the virtual instrument by a scripted player, before and after");
    command->add_option("--instrument", options->instrument, "An example's id");
    command->add_option("--choir", options->choir, "Choir to tune: 8, 8b, 4, 16");
    command->add_option("--lowest", options->lowest, "Lowest key of the octave, such as C4");
    command->add_option("--temperament", options->temperament, "What it is tuned to");
    command->add_option("--a4", options->a4, "Hz; the instrument's own without it")
        ->check(CLI::Range(200.0, 1000.0));
    command->add_option("--out-by", options->outBy, "Cents: how far out of tune it is at most")
        ->check(CLI::Range(0.0, 45.0));
    command->add_option("--seed", options->seed, "Of the mistuning, the strings and the hand");
    command->add_flag("--json", options->json, "One JSON object on standard output");
    command->callback([options, &exitCode] { exitCode = run(*options); });
}

} // namespace quillbench::cli
