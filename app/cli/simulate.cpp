#include "app/cli/command.hpp"
#include "app/formats/instrument_file.hpp"
#include "app/formats/text_file.hpp"
#include "audio/sound_writer.hpp"
#include "core/support/excerpt.hpp"
#include "core/temperament/catalogue.hpp"
#include "core/virtual/performance.hpp"

#include <nlohmann/json.hpp>

#include <cmath>
#include <cstdio>
#include <filesystem>
#include <memory>
#include <string>

namespace quillbench::cli {

namespace {

/// What was asked for.
struct SimulateOptions {
    std::string instrument;
    std::string play;
    std::string detune;
    std::string temperament = "equal";
    std::optional<double> a4;
    std::optional<double> noiseDb;
    std::optional<double> humDb;
    double mainsHz = 50.0;
    double kelvinPerHour = 0.0;
    std::uint64_t seed = 1;
    double rateHz = 48000.0;
    std::optional<double> length;
    bool silentAction = false;
    std::string out;
};

int exitFor(const Error& error) {
    std::fprintf(stderr, "quillbench-cli simulate: %s\n", error.text.c_str());
    return error.code == ErrorCode::BadArgument ? kWrongCommandLine : kUnreadableInput;
}

/// What a string is tuned to before anything is detuned.
std::vector<std::vector<Hertz>> targetsOf(const Instrument& instrument, const TunedScale& scale) {
    std::vector<std::vector<Hertz>> pitches;
    for (std::size_t c = 0; c < instrument.choirs.size(); ++c) {
        std::vector<Hertz> choir;
        for (std::size_t s = 0; s < instrument.choirs[c].strings.size(); ++s) {
            choir.push_back(targetPitch(
                instrument, {c, s}, [&scale](const Note& note) { return scale.pitchOf(note); }));
        }
        pitches.push_back(std::move(choir));
    }
    return pitches;
}

nlohmann::ordered_json stringNames(const Instrument& instrument, StringId string) {
    return {{"choir", instrument.choirs[string.choir].id},
            {"note", toAscii(keyNote(instrument, string))}};
}

nlohmann::ordered_json truthOf(const SimulateOptions& options,
                               const Instrument& instrument,
                               const std::vector<std::vector<Hertz>>& targets,
                               const Performance& performance) {
    nlohmann::ordered_json truth;
    truth["schema"] = 1;
    truth["kind"] = "truth";
    truth["file"] = std::filesystem::path(options.out).filename().string();
    truth["instrument"] = instrument.id;
    truth["temperament"] = options.temperament;
    truth["a4"] = options.a4.value_or(instrument.pitchStandardHz);
    truth["rate_hz"] = options.rateHz;
    truth["seed"] = options.seed;
    truth["strings_dbfs"] = performance.strings.value();
    truth["plucks"] = nlohmann::ordered_json::array();
    for (const PerformedPluck& pluck : performance.plucks) {
        nlohmann::ordered_json entry = stringNames(instrument, pluck.string);
        const Hertz target = targets[pluck.string.choir][pluck.string.course];
        entry["pluck_s"] = pluck.at.count();
        entry["released_s"] = pluck.released ? nlohmann::ordered_json(pluck.released->count())
                                             : nlohmann::ordered_json();
        entry["target_hz"] = target.value();
        entry["rest_hz"] = pluck.truth.rest.value();
        entry["sustain_hz"] = pluck.truth.sustain.value();
        entry["deviation_cents"] = interval(target, pluck.truth.sustain).value();
        entry["inharmonicity"] = pluck.truth.inharmonicity;
        entry["start_cents"] = pluck.truth.start.value();
        entry["glide_cents"] = pluck.truth.glide.value();
        entry["partials"] = nlohmann::ordered_json::array();
        for (const PluckTruth::Partial& partial : pluck.truth.partials) {
            entry["partials"].push_back({{"n", partial.number},
                                         {"hz", partial.mean.value()},
                                         {"level_db", partial.level.value()},
                                         {"used_s", partial.used.count()}});
        }
        truth["plucks"].push_back(std::move(entry));
    }
    truth["pairs"] = nlohmann::ordered_json::array();
    for (const PerformedPair& pair : performance.pairs) {
        const double beat = pair.pair.beat().perSecond();
        nlohmann::ordered_json entry;
        entry["interval"] = pair.interval;
        entry["ratio"] = {pair.lowerPartial, pair.upperPartial};
        entry["lower"] = stringNames(instrument, performance.plucks[pair.lower].string);
        entry["upper"] = stringNames(instrument, performance.plucks[pair.upper].string);
        entry["later_pluck_s"] = std::max(performance.plucks[pair.lower].at.count(),
                                          performance.plucks[pair.upper].at.count());
        entry["beat_hz"] = std::abs(beat);
        entry["direction"] = beat > 0.0 ? "wide" : (beat < 0.0 ? "narrow" : "pure");
        entry["width_cents"] = pair.pair.width().value();
        truth["pairs"].push_back(std::move(entry));
    }
    return truth;
}

/// As long as the last note needs: until it is let go, else four seconds.
Seconds lengthFor(const std::vector<PlayedNote>& notes) {
    Seconds length{0};
    for (const PlayedNote& note : notes) {
        length = std::max(length,
                          note.hold ? note.at + *note.hold + Seconds(1.0) : note.at + Seconds(4.0));
    }
    return length;
}

Result<Performance> simulate(const SimulateOptions& options,
                             const Instrument& instrument,
                             const std::vector<std::vector<Hertz>>& targets) {
    const auto notes = parsePerformance(options.play, instrument);
    if (!notes) {
        return Unexpected<Error>(notes.error());
    }
    VirtualSettings settings;
    settings.sampleRate = SampleRate(options.rateHz);
    settings.seed = options.seed;
    settings.pitches = targets;
    settings.room.mains = Hertz(options.mainsHz);
    settings.room.kelvinPerHour = options.kelvinPerHour;
    settings.actionNoise = !options.silentAction;
    if (!options.detune.empty()) {
        const auto detunings = parseDetunings(options.detune, instrument);
        if (!detunings) {
            return Unexpected<Error>(detunings.error());
        }
        for (const Detuning& detuning : *detunings) {
            Hertz& pitch = settings.pitches[detuning.string.choir][detuning.string.course];
            pitch = transpose(pitch, detuning.by);
        }
    }
    const Seconds length = options.length ? Seconds(*options.length) : lengthFor(*notes);
    return perform(instrument, settings, *notes, {options.noiseDb, options.humDb}, length);
}

int run(const SimulateOptions& options) {
    const auto instrument = loadInstrument(options.instrument);
    if (!instrument) {
        return exitFor(instrument.error());
    }
    const Temperament* temperament = findTemperament(options.temperament);
    if (temperament == nullptr) {
        return exitFor({ErrorCode::BadArgument,
                        "no temperament '" + excerpt(options.temperament) +
                            "'; 'quillbench-cli temperament' lists them",
                        options.temperament});
    }
    const TunedScale scale{
        *temperament,
        {Hertz(options.a4.value_or(instrument->pitchStandardHz)), {{Letter::A, 0}, 4}}};
    const auto targets = targetsOf(*instrument, scale);
    const auto performance = simulate(options, *instrument, targets);
    if (!performance) {
        return exitFor(performance.error());
    }
    const std::filesystem::path out(options.out);
    const auto sound = writeSound(out, {SampleRate(options.rateHz), performance->samples});
    if (!sound) {
        return exitFor(sound.error());
    }
    std::filesystem::path truthPath = out;
    truthPath.replace_extension(".truth.json");
    const auto truth = truthOf(options, *instrument, targets, *performance);
    const auto written = writeTextFile(truthPath, truth.dump(1) + "\n");
    if (!written) {
        return exitFor(written.error());
    }
    std::fprintf(stderr,
                 "%s: %zu plucks; what is true of them stands in %s\n",
                 options.out.c_str(),
                 performance->plucks.size(),
                 truthPath.string().c_str());
    return kDone;
}

} // namespace

void addSimulate(CLI::App& app, int& exitCode) {
    auto options = std::make_shared<SimulateOptions>();
    CLI::App* command = app.add_subcommand(
        "simulate", "Play the virtual instrument into a sound file, with the truth beside it");
    command->add_option("--instrument", options->instrument, "An example's id or a file")
        ->required();
    command
        ->add_option("--play",
                     options->play,
                     "KEY:CHOIR@SECONDS+HELD, comma separated; without a choir the key is pressed "
                     "with all registers, without +HELD it rings on")
        ->required();
    command->add_option("--detune", options->detune, "CHOIR:KEY=CENTS, comma separated");
    command->add_option("--temperament", options->temperament, "What it is tuned to");
    command->add_option("--a4", options->a4, "Hz; the instrument's own without it")
        ->check(CLI::Range(200.0, 1000.0));
    command
        ->add_option("--noise-db",
                     options->noiseDb,
                     "Room noise, so many dB below the RMS of the first second after the first "
                     "pluck")
        ->check(CLI::Range(-20.0, 140.0));
    command
        ->add_option("--hum-db", options->humDb, "Strongest line of the mains hum, as --noise-db")
        ->check(CLI::Range(-20.0, 140.0));
    command->add_option("--mains", options->mainsHz, "Hz of the mains")
        ->check(CLI::Range(40.0, 70.0));
    command->add_option("--warming", options->kelvinPerHour, "Kelvin an hour")
        ->check(CLI::Range(-20.0, 20.0));
    command->add_option("--seed", options->seed, "Of every string's character and every noise");
    command->add_option("--rate", options->rateHz, "Frames per second")
        ->check(CLI::Range(8000.0, 192000.0));
    command->add_option("--length", options->length, "Seconds; without it what the notes need")
        ->check(CLI::Range(0.01, 7200.0));
    command->add_flag("--silent-action", options->silentAction, "No plectrum, key or jack noise");
    command->add_option("OUT", options->out, "A .wav or .flac file to write")->required();
    addExamples(
        *command,
        {"simulate --instrument double-8-8-4 --play \"A3:8@0.5+2.5\" --detune \"8:A3=+4.2\" "
         "--noise-db 35 note.wav",
         "simulate --instrument double-8-8-4 --play \"C4:8@0.5+3,C4:8@4,G4:8@4.1\" pair.wav",
         "simulate --instrument double-8-8-4 --play \"C4@0.5+2\" --noise-db 35 --seed 7 key.wav"});
    command->callback([options, &exitCode] { exitCode = run(*options); });
}

} // namespace quillbench::cli
