#include "app/cli/command.hpp"
#include "app/cli/scale_options.hpp"
#include "app/formats/json_fields.hpp"
#include "app/formats/temperament_file.hpp"
#include "app/formats/text_file.hpp"
#include "app/formats/tuning_standard.hpp"
#include "core/instrument/limits.hpp"
#include "core/temperament/beat_table.hpp"
#include "core/temperament/catalogue.hpp"
#include "core/temperament/transposing.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <memory>
#include <string>
#include <vector>

namespace quillbench::cli {

namespace {

using Json = nlohmann::ordered_json;

struct TemperamentOptions {
    ScaleOptions scale;
    std::string keys = "F1..F6";
    std::vector<int> positions;
    int tunedAt = 0;
    std::string exportForm;
    std::string out;
    bool beats = false;
    bool json = false;
};

constexpr std::array<const char*, 6> kExportForms{
    "csv", "file", "mts-octave-1", "mts-octave-2", "mts-notes", "mts-bulk"};

const char* nameOf(DefinitionStatus status) {
    switch (status) {
    case DefinitionStatus::Verified:
        return "verified";
    case DefinitionStatus::PartlyVerified:
        return "partly verified";
    case DefinitionStatus::FromMemory:
        return "from memory";
    case DefinitionStatus::Own:
        return "own";
    }
    return "own";
}

/// A value without the noise of the sixteenth digit, and never −0.
double tidy(double value) {
    const double rounded = std::round(value * 1e9) / 1e9;
    return std::abs(rounded) < 1e-9 ? 0.0 : rounded;
}

Json listJson() {
    Json list = Json::array();
    for (const Temperament& each : catalogue()) {
        const TemperamentDescription& about = each.description();
        list.push_back({{"id", about.id},
                        {"short_name", shortNameOf(each)},
                        {"name", about.name},
                        {"year", about.year},
                        {"source", about.source},
                        {"definition", nameOf(about.status)},
                        {"definition_note", about.statusNote},
                        {"disagreement", about.disagreement}});
    }
    return Json{{"schema", 1},
                {"kind", "temperaments"},
                {"id", nullptr},
                {"status", "ok"},
                {"temperaments", std::move(list)}};
}

/// Where C–G lies in the chain; the fifths are told from there on.
std::size_t placeOfC(const Temperament& temperament) {
    const auto notes = temperament.notes();
    const PitchClass c = temperament.played(PitchClass{Letter::C, 0});
    return static_cast<std::size_t>(std::find(notes.begin(), notes.end(), c) - notes.begin());
}

std::vector<PitchClass> upwardsFromC(const Temperament& temperament) {
    std::vector<PitchClass> notes;
    for (const Note& key :
         keysBetween(temperament, Note{{Letter::C, 0}, 4}, Note{{Letter::B, 0}, 4})) {
        notes.push_back(key.pitchClass);
    }
    return notes;
}

Json fifthsJson(const Temperament& temperament) {
    Json fifths = Json::array();
    const auto notes = temperament.notes();
    const auto temperings = temperament.fifths();
    const std::size_t start = temperament.isCircle() ? placeOfC(temperament) : 0;
    for (std::size_t i = 0; i < temperings.size(); ++i) {
        const std::size_t place = (start + i) % temperings.size();
        fifths.push_back({{"lower", toAscii(notes[place])},
                          {"upper", toAscii(notes[(place + 1) % notes.size()])},
                          {"cents", tidy(temperings[place].cents().value())},
                          {"exact", toText(temperings[place])}});
    }
    return fifths;
}

Json thirdJson(const ThirdSize& third) {
    const double pure =
        intervalOf(third.major ? IntervalKind::MajorThird : IntervalKind::MinorThird)
            .pureSize()
            .value();
    return {{"lower", toAscii(third.lower)},
            {"upper", toAscii(third.upper)},
            {"kind", third.major ? "major" : "minor"},
            {"cents", tidy(pure + third.width.value())},
            {"width_cents", tidy(third.width.value())},
            {"as_spelled", third.asSpelled}};
}

const std::array<IntervalKind, 7> kTableKinds{IntervalKind::MinorThird,
                                              IntervalKind::MajorThird,
                                              IntervalKind::Fourth,
                                              IntervalKind::Fifth,
                                              IntervalKind::MinorSixth,
                                              IntervalKind::MajorSixth,
                                              IntervalKind::Tenth};

const char* directionOf(BeatRate beat) {
    return std::abs(beat.perSecond()) < 1e-6 ? "pure"
                                             : (beat.perSecond() > 0.0 ? "wide" : "narrow");
}

std::vector<BeatEntry> beatsOf(const TunedScale& scale) {
    return beatTable(scale, Note{{Letter::F, 0}, 3}, Note{{Letter::C, 0}, 5}, kTableKinds);
}

Json scaleJson(const TemperamentOptions& options,
               const TunedScale& scale,
               const std::pair<Note, Note>& keys) {
    const Temperament& temperament = scale.temperament;
    const TemperamentDescription& about = temperament.description();
    const PitchClass anchor = scale.reference.note.pitchClass;
    Json json{{"schema", 1},
              {"kind", "temperament"},
              {"id", nullptr},
              {"status", "ok"},
              {"temperament", about.id},
              {"name", about.name},
              {"year", about.year},
              {"root", options.scale.root.empty() ? "C" : options.scale.root},
              {"standard_note", toAscii(scale.reference.note)},
              {"standard_hz", scale.reference.hz.value()},
              {"a4", tidy(scale.pitchOf(Note{{Letter::A, 0}, 4}).value())}};
    for (const PitchClass& note : upwardsFromC(temperament)) {
        json["notes"].push_back(toAscii(note));
        json["cents"].push_back(tidy(temperament.centsFromC(note).value()));
        json["offset_cents"].push_back(tidy(temperament.offsetFromEqual(note, anchor).value()));
    }
    json["hz"] = Json::object();
    for (const Note& key : keysBetween(temperament, keys.first, keys.second)) {
        json["hz"][toAscii(key)] = scale.pitchOf(key).value();
    }
    json["fifths"] = fifthsJson(temperament);
    json["thirds"] = Json::array();
    for (const bool major : {true, false}) {
        for (const ThirdSize& third : thirdsOf(temperament, major)) {
            json["thirds"].push_back(thirdJson(third));
        }
    }
    json["closes_cents"] = tidy(temperament.closes().value());
    if (options.beats) {
        for (const BeatEntry& entry : beatsOf(scale)) {
            json["beats"].push_back({{"lower", toAscii(entry.lower)},
                                     {"upper", toAscii(entry.upper)},
                                     {"interval", intervalOf(entry.interval).id},
                                     {"beat_hz", tidy(abs(entry.beat).perSecond())},
                                     {"direction", directionOf(entry.beat)},
                                     {"width_cents", tidy(entry.width.value())}});
        }
    }
    for (const PositionReport& report :
         positionReports(scale, options.tunedAt, options.positions)) {
        Json position{{"position", report.position}, {"a4", tidy(report.a4.value())}};
        for (const ThirdSize& third : report.majorThirds) {
            position["major_thirds"].push_back(thirdJson(third));
        }
        json["positions"].push_back(std::move(position));
    }
    json["source"] = about.source;
    json["definition"] = nameOf(about.status);
    json["definition_note"] = about.statusNote;
    json["disagreement"] = about.disagreement;
    return json;
}

void printList() {
    std::printf("%-28s %-9s %-34s %s\n", "id", "short", "year", "name");
    for (const Temperament& each : catalogue()) {
        const TemperamentDescription& about = each.description();
        std::printf("%-28s %-9s %-34s %s\n",
                    about.id.c_str(),
                    std::string(shortNameOf(each)).c_str(),
                    about.year.c_str(),
                    about.name.c_str());
    }
}

void printScale(const TemperamentOptions& options, const TunedScale& scale) {
    const Temperament& temperament = scale.temperament;
    const TemperamentDescription& about = temperament.description();
    const bool helmholtz = options.scale.helmholtz;
    std::printf("%s (%s)\n", about.name.c_str(), about.id.c_str());
    for (const auto& [label, text] : {std::pair("year", about.year),
                                      std::pair("source", about.source),
                                      std::pair("checked", about.statusNote),
                                      std::pair("disputed", about.disagreement)}) {
        if (!text.empty()) {
            std::printf("%-10s%s\n", label, text.c_str());
        }
    }
    std::printf("%-10s%s= %.2f Hz\n\n",
                "standard",
                shown(scale.reference.note, helmholtz).c_str(),
                scale.reference.hz.value());
    std::printf("%-6s %10s %8s %8s   %-6s %8s  %s\n",
                "note",
                "Hz",
                "cents",
                "offset",
                "fifth",
                "cents",
                "exactly");
    const auto notes = temperament.notes();
    const auto fifths = temperament.fifths();
    const std::size_t start = temperament.isCircle() ? placeOfC(temperament) : 0;
    for (std::size_t i = 0; i < notes.size(); ++i) {
        const std::size_t place = (start + i) % notes.size();
        const PitchClass note = notes[place];
        const Note key{note, 4};
        std::printf(
            "%-5s %10.3f %8.2f %+8.2f",
            shown(key, helmholtz).c_str(),
            scale.pitchOf(key).value(),
            temperament.centsFromC(note).value(),
            tidy(temperament.offsetFromEqual(note, scale.reference.note.pitchClass).value()));
        if (place < fifths.size()) {
            const std::string fifth =
                toAscii(note) + "-" + toAscii(notes[(place + 1) % notes.size()]);
            std::printf("   %-6s %+8.3f  %s",
                        fifth.c_str(),
                        tidy(fifths[place].cents().value()),
                        toText(fifths[place]).c_str());
        }
        std::printf("\n");
    }
    std::printf("\n%-12s %9s %9s\n", "third", "cents", "of pure");
    for (const bool major : {true, false}) {
        for (const ThirdSize& third : thirdsOf(temperament, major)) {
            const double pure =
                intervalOf(major ? IntervalKind::MajorThird : IntervalKind::MinorThird)
                    .pureSize()
                    .value();
            std::printf("%-12s %9.2f %+9.2f%s\n",
                        (toAscii(third.lower) + "-" + toAscii(third.upper)).c_str(),
                        pure + third.width.value(),
                        tidy(third.width.value()),
                        third.asSpelled || temperament.closesWithoutWolf() ? "" : "  wolf");
        }
    }
    if (!temperament.isCircle()) {
        std::printf("\nopen chain: twelve fifths miss by %+.3f cents\n",
                    temperament.closes().value());
    }
    if (options.beats) {
        std::printf("\n%-14s %-6s %-6s %8s %-7s %8s\n",
                    "interval",
                    "lower",
                    "upper",
                    "beats/s",
                    "",
                    "cents");
        for (const BeatEntry& entry : beatsOf(scale)) {
            std::printf("%-14s %s %s %8.2f %-7s %+8.2f\n",
                        std::string(intervalOf(entry.interval).name).c_str(),
                        shown(entry.lower, helmholtz).c_str(),
                        shown(entry.upper, helmholtz).c_str(),
                        abs(entry.beat).perSecond(),
                        directionOf(entry.beat),
                        tidy(entry.width.value()));
        }
    }
    for (const PositionReport& report :
         positionReports(scale, options.tunedAt, options.positions)) {
        std::printf(
            "\nposition %+d: A4 sounds %.2f Hz; widest thirds", report.position, report.a4.value());
        for (std::size_t i = 0; i < 4 && i < report.majorThirds.size(); ++i) {
            const ThirdSize& third = report.majorThirds[i];
            std::printf("%s %s-%s %+.1f",
                        i == 0 ? "" : ",",
                        toAscii(third.lower).c_str(),
                        toAscii(third.upper).c_str(),
                        third.width.value());
        }
        std::printf("\n");
    }
}

Result<std::string> exported(const TemperamentOptions& options,
                             const TunedScale& scale,
                             const std::pair<Note, Note>& keys) {
    if (options.exportForm == "csv") {
        return formatScaleCsv(scale, keys.first, keys.second);
    }
    if (options.exportForm == "file") {
        return formatTemperament({scale.temperament, ""});
    }
    const auto message = options.exportForm == "mts-octave-1"   ? octaveTuningOneByte(scale)
                         : options.exportForm == "mts-octave-2" ? octaveTuningTwoBytes(scale)
                         : options.exportForm == "mts-notes"
                             ? singleNoteTuning(scale, keys.first, keys.second)
                             : bulkTuningDump(scale);
    if (!message) {
        return Unexpected<Error>(message.error());
    }
    return std::string(message->begin(), message->end());
}

int run(const TemperamentOptions& options) {
    if (options.scale.temperament.empty()) {
        if (options.json) {
            std::printf("%s\n", formatJsonLine(listJson()).c_str());
        } else {
            printList();
        }
        return kDone;
    }
    const auto scale = scaleOf(options.scale);
    if (!scale) {
        return refuse("temperament", scale.error());
    }
    const auto keys = keysOf("--keys", options.keys, options.scale.helmholtz);
    if (!keys) {
        return refuse("temperament", keys.error());
    }
    if (!options.exportForm.empty()) {
        const auto text = exported(options, *scale, *keys);
        if (!text) {
            return refuse("temperament", text.error());
        }
        if (options.out.empty()) {
            std::fwrite(text->data(), 1, text->size(), stdout);
            return kDone;
        }
        const auto written = writeTextFile(options.out, *text);
        return written ? kDone : refuse("temperament", written.error());
    }
    if (options.json) {
        std::printf("%s\n", formatJsonLine(scaleJson(options, *scale, *keys)).c_str());
    } else {
        printScale(options, *scale);
    }
    return kDone;
}

} // namespace

void addTemperament(CLI::App& app, int& exitCode) {
    CLI::App* command = app.add_subcommand(
        "temperament", "The historical temperaments, and one of them in cents, hertz and beats");
    auto options = std::make_shared<TemperamentOptions>();
    command->add_option(
        "name",
        options->scale.temperament,
        "Id (such as werckmeister-3) or a temperament file; without it all are listed");
    addScaleOptions(*command, options->scale);
    command->add_option("--keys", options->keys, "Keys whose pitch is told (F1..F6)");
    command->add_flag("--beats", options->beats, "Also the beats of the intervals from F3 to C5");
    command
        ->add_option("--positions",
                     options->positions,
                     "Positions of a sliding keyboard that are played, in semitones, as 0,1")
        ->delimiter(',')
        ->check(CLI::Range(static_cast<int>(kPositionLimits.low),
                           static_cast<int>(kPositionLimits.high)));
    command->add_option("--tuned-at", options->tunedAt, "Position at which it is tuned (0)")
        ->check(CLI::Range(static_cast<int>(kPositionLimits.low),
                           static_cast<int>(kPositionLimits.high)));
    auto* form =
        command->add_option("--export",
                            options->exportForm,
                            "Write csv, file (a temperament file to keep and change), or a "
                            "MIDI Tuning Standard message: mts-octave-1, mts-octave-2, "
                            "mts-notes, mts-bulk");
    form->check(CLI::IsMember(std::vector<std::string>(kExportForms.begin(), kExportForms.end())));
    command->add_option("--out", options->out, "File for --export (standard output)")->needs(form);
    command->add_flag("--json", options->json, "Print JSON")->excludes(form);
    addExamples(*command,
                {"temperament",
                 "temperament werckmeister-3 --a4 415 --beats",
                 "temperament vallotti --root F --json",
                 "temperament kirnberger-3 --export file --out mine.quillbench",
                 "temperament mine.quillbench"});
    command->callback([options, &exitCode] { exitCode = run(*options); });
}

} // namespace quillbench::cli
