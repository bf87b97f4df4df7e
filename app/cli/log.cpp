#include "app/cli/command.hpp"
#include "app/cli/log_commands.hpp"
#include "app/formats/instrument_file.hpp"
#include "app/formats/logbook_file.hpp"
#include "app/formats/logbook_transfer.hpp"
#include "core/support/excerpt.hpp"

#include <cstdio>

namespace quillbench::cli {

int complainOfLog(const Error& error) {
    std::fprintf(stderr, "quillbench-cli: log: %s\n", error.text.c_str());
    return error.code == ErrorCode::BadArgument ? kWrongCommandLine : kUnreadableInput;
}

Result<std::filesystem::path> fileOf(const LogOptions& options) {
    return options.logbook.empty() ? logbookPlace()
                                   : Result<std::filesystem::path>(options.logbook);
}

Result<Logbook> openLog(const LogOptions& options, bool toWrite) {
    const auto file = fileOf(options);
    if (!file) {
        return Unexpected<Error>(file.error());
    }
    Result<Logbook> logbook = Logbook::open({*file, toWrite, {}});
    if (logbook && !logbook->trouble().empty()) {
        if (toWrite && !logbook->writable()) {
            return failure(ErrorCode::Environment, logbook->trouble(), file->string());
        }
        std::fprintf(stderr, "quillbench-cli: log: %s\n", logbook->trouble().c_str());
    }
    return logbook;
}

namespace {

/// Runs `work` on the opened logbook.
template <typename Work>
int with(const LogOptions& options, bool toWrite, Work work) {
    Result<Logbook> logbook = openLog(options, toWrite);
    if (!logbook) {
        return complainOfLog(logbook.error());
    }
    const Result<void> done = work(*logbook);
    return done ? kDone : complainOfLog(done.error());
}

int exported(const LogOptions& options) {
    if (options.json != options.folder.empty()) {
        return complainOfLog(
            {ErrorCode::BadArgument,
             "export: say --json (to standard output, or --out FILE) or --csv FOLDER",
             {}});
    }
    return with(options, false, [&](const Logbook& logbook) -> Result<void> {
        const auto contents = logbook.contents();
        if (!contents) {
            return Unexpected<Error>(contents.error());
        }
        if (!options.folder.empty()) {
            return writeLogbookCsv(*contents, options.folder);
        }
        if (!options.file.empty()) {
            return writeLogbookJson(*contents, options.file);
        }
        const std::string text = formatLogbook(*contents);
        std::fwrite(text.data(), 1, text.size(), stdout);
        return {};
    });
}

int imported(const LogOptions& options) {
    const auto contents = readLogbookExport(options.file);
    if (!contents) {
        return complainOfLog(contents.error());
    }
    return with(options, true, [&](Logbook& logbook) -> Result<void> {
        const auto report = logbook.merge(*contents);
        if (!report) {
            return Unexpected<Error>(report.error());
        }
        std::fprintf(stderr,
                     "%zu rows taken over; %zu sessions new, %zu there already\n",
                     report->rows,
                     report->sessions,
                     report->sessionsThere);
        return {};
    });
}

int backedUp(const LogOptions& options) {
    return with(
        options, false, [&](const Logbook& logbook) { return logbook.backUp(options.file); });
}

int restored(const LogOptions& options) {
    const auto file = fileOf(options);
    if (!file) {
        return complainOfLog(file.error());
    }
    const auto aside = restoreLogbook(*file, options.file, instantNow());
    if (!aside) {
        return complainOfLog(aside.error());
    }
    if (!aside->empty()) {
        std::fprintf(stderr, "what was there is now %s\n", aside->c_str());
    }
    return kDone;
}

int repaired(const LogOptions& options) {
    const auto file = fileOf(options);
    if (!file) {
        return complainOfLog(file.error());
    }
    const auto report = repairLogbook(*file, instantNow());
    if (!report) {
        return complainOfLog(report.error());
    }
    if (report->damaged.empty()) {
        std::fprintf(stderr, "nothing to repair: every row is as it was kept\n");
    } else {
        std::fprintf(stderr,
                     "%zu rows saved, %zu readings among them; the damaged file is now %s\n",
                     report->rows,
                     report->readings,
                     report->damaged.c_str());
    }
    return kDone;
}

/// The instrument as its file describes it now.
Result<std::pair<Instrument, InstrumentState>> instrumentNamed(const std::string& name) {
    auto instrument = loadInstrument(name);
    if (!instrument) {
        return Unexpected<Error>(instrument.error());
    }
    InstrumentState state{instrument->id, instrument->name, formatInstrument({*instrument, ""})};
    return std::pair(std::move(instrument).value(), std::move(state));
}

/// "8b:A3" as a string of the instrument.
Result<StringName> stringNamed(const Instrument& instrument, const std::string& code) {
    const std::size_t colon = code.find(':');
    const auto choir = choirOf(instrument, code.substr(0, colon));
    const auto note =
        parseNote(colon == std::string::npos ? std::string() : code.substr(colon + 1));
    const auto string =
        choir && note ? stringOf(instrument, *choir, *note) : std::optional<StringId>();
    if (!string) {
        return failure(ErrorCode::BadArgument,
                       "\"" + excerpt(code) + "\" is no string of " + instrument.id +
                           ": give choir and key, such as 8:A3");
    }
    return StringName{instrument.choirs[string->choir].id,
                      static_cast<int>(string->course),
                      toAscii(keyNote(instrument, *string))};
}

/// Opens the logbook and gives `work` the instrument and, where one was named, the string.
template <typename Work>
int entered(const LogOptions& options, const std::string& string, Work work) {
    const auto named = instrumentNamed(options.instrument);
    if (!named) {
        return complainOfLog(named.error());
    }
    std::optional<StringName> name;
    if (!string.empty()) {
        const auto found = stringNamed(named->first, string);
        if (!found) {
            return complainOfLog(found.error());
        }
        name = *found;
    }
    return with(
        options, true, [&](Logbook& logbook) { return work(logbook, named->second, name); });
}

int remarked(const LogOptions& options) {
    return entered(options,
                   options.string,
                   [&](Logbook& logbook, const InstrumentState& state, const auto& string) {
                       RemarkRecord remark;
                       remark.text = options.text;
                       remark.at = instantNow();
                       return logbook.remark(state, "", string, remark);
                   });
}

int aired(const LogOptions& options) {
    if (!options.temperatureC && !options.humidityPercent) {
        return complainOfLog(
            {ErrorCode::BadArgument, "climate: give --temperature, --humidity or both", {}});
    }
    return entered(
        options, {}, [&](Logbook& logbook, const InstrumentState& state, const auto& /*string*/) {
            ClimateRecord climate;
            climate.temperatureC = options.temperatureC;
            climate.humidityPercent = options.humidityPercent;
            climate.at = instantNow();
            return logbook.climate(state, "", climate);
        });
}

int replaced(const LogOptions& options) {
    return entered(options,
                   options.text,
                   [&](Logbook& logbook, const InstrumentState& state, const auto& string) {
                       StringChangeRecord change;
                       change.diameterMm = options.diameterMm;
                       if (!options.material.empty()) {
                           change.material = options.material;
                       }
                       change.reason = options.reason;
                       change.at = instantNow();
                       return logbook.stringChanged(state, "", *string, change);
                   });
}

/// One of the things that can be done with the logbook.
CLI::App* add(CLI::App& log,
              const std::shared_ptr<LogOptions>& options,
              int& exitCode,
              const char* name,
              const char* about,
              int (*work)(const LogOptions&)) {
    CLI::App* command = log.add_subcommand(name, about);
    command->add_option(
        "--logbook", options->logbook, "The logbook's file (in the data folder of the platform)");
    command->callback([options, &exitCode, work] { exitCode = work(*options); });
    return command;
}

void addWriting(CLI::App& log, const std::shared_ptr<LogOptions>& options, int& exitCode) {
    const auto onInstrument = [&](CLI::App* command) {
        command->add_option("--instrument", options->instrument, "Id of a built-in one, or a file")
            ->required();
        return command;
    };
    CLI::App* remark =
        onInstrument(add(log, options, exitCode, "remark", "Keep a remark", remarked));
    remark->add_option("text", options->text, "What is to be remembered")->required();
    remark->add_option("--string", options->string, "Choir and key, as 8:A3");
    CLI::App* climate = onInstrument(
        add(log, options, exitCode, "climate", "Keep temperature and humidity", aired));
    climate->add_option("--temperature", options->temperatureC, "In degrees Celsius")
        ->check(CLI::Range(-30.0, 60.0));
    climate->add_option("--humidity", options->humidityPercent, "Relative, in percent")
        ->check(CLI::Range(0.0, 100.0));
    CLI::App* string = onInstrument(
        add(log, options, exitCode, "replaced", "Keep that a string was replaced", replaced));
    string->add_option("string", options->text, "Choir and key, as 8:A3")->required();
    string->add_option("--diameter-mm", options->diameterMm, "Of the new wire")
        ->check(CLI::Range(0.05, 3.0));
    string->add_option("--material", options->material, "Of the new wire");
    string->add_option("--reason", options->reason, "Why");
}

void addLogExamples(CLI::App& log) {
    const auto of = [&log](const char* name, std::initializer_list<const char*> arguments) {
        addExamples(*log.get_subcommand(name), arguments);
    };
    of("remark", {"log remark \"pin loose\" --instrument double-8-8-4 --string 8b:Eb3"});
    of("climate", {"log climate --instrument double-8-8-4 --temperature 19.5 --humidity 52"});
    of("replaced",
       {"log replaced 4:C3 --instrument double-8-8-4 --diameter-mm 0.2 --reason broken"});
    of("list", {"log list", "log list --json"});
    of("show", {"log show", "log show --practise"});
    of("export", {"log export --csv tables", "log export --json --out all.quillbench"});
    of("import", {"log import all.quillbench", "log import tables"});
    of("verify", {"log verify"});
    of("backup", {"log backup may.sqlite"});
    of("restore", {"log restore may.sqlite"});
    of("repair", {"log repair"});
    log.footer("'quillbench-cli log COMMAND --help' tells what each takes, with examples.");
}

} // namespace

void addLog(CLI::App& app, int& exitCode) {
    CLI::App* log =
        app.add_subcommand("log", "The logbook: sessions, readings and remarks that were kept");
    log->require_subcommand(1);
    auto options = std::make_shared<LogOptions>();
    add(*log, options, exitCode, "list", "List the sessions", listed)
        ->add_flag("--json", options->json, "Print one JSON object");
    CLI::App* show = add(*log,
                         options,
                         exitCode,
                         "show",
                         "Show the readings and remarks of a session, or what was practised",
                         showed);
    CLI::Option* session =
        show->add_option("session", options->session, "Its number in the list (the last)");
    show->add_flag("--practise", options->practise, "Show every exercise at Practise")
        ->excludes(session);
    show->add_flag("--json", options->json, "Print one JSON object");
    CLI::App* out = add(*log, options, exitCode, "export", "Write everything", exported);
    out->add_flag("--json", options->json, "As JSON, one object a line");
    out->add_option("--out", options->file, "File for --json (standard output)");
    out->add_option("--csv", options->folder, "As CSV, a file a table in this folder");
    add(*log, options, exitCode, "import", "Take over what an export holds", imported)
        ->add_option("from", options->file, "An exported JSON file or folder of CSV files")
        ->required();
    add(*log, options, exitCode, "verify", "Look whether every row is as it was kept", verified)
        ->add_flag("--json", options->json, "Print one JSON object");
    add(*log, options, exitCode, "backup", "Copy the logbook, in use or not", backedUp)
        ->add_option("to", options->file, "The new file")
        ->required();
    add(*log, options, exitCode, "restore", "Put a backup in the logbook's place", restored)
        ->add_option("from", options->file, "The backup")
        ->required();
    add(*log, options, exitCode, "repair", "Save what can be read of a damaged logbook", repaired);
    addWriting(*log, options, exitCode);
    addLogExamples(*log);
}

} // namespace quillbench::cli
