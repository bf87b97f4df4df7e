#include "core/temperament/bearings.hpp"

#include "app/cli/command.hpp"
#include "app/cli/scale_options.hpp"
#include "app/formats/json_fields.hpp"

#include <nlohmann/json.hpp>

#include <cstdio>
#include <memory>
#include <string>

namespace quillbench::cli {

namespace {

using Json = nlohmann::ordered_json;

struct BearingsOptions {
    ScaleOptions scale;
    std::string plan = "computed";
    std::string range = "F3..C5";
    bool json = false;
};

const char* stepDirection(BeatRate beat) {
    return beat.perSecond() > 0.0 ? "wide" : (beat.perSecond() < 0.0 ? "narrow" : "pure");
}

Json stepJson(const BearingStep& step) {
    Json json{{"tune", toAscii(step.tune)},
              {"against", toAscii(step.against)},
              {"from_standard", step.fromStandard},
              {"interval", intervalOf(step.interval).id},
              {"beat_hz", abs(step.beat).perSecond()},
              {"direction", stepDirection(step.beat)},
              {"kind", nameOf(step.kind)},
              {"hz", step.pitch.value()}};
    if (step.alike) {
        json["alike_with"] = toAscii(step.alike->with);
        json["alike_interval"] = intervalOf(step.alike->interval).id;
        json["alike_beat_hz"] = abs(step.alike->beat).perSecond();
        json["alike_direction"] = stepDirection(step.alike->beat);
    }
    json["says"] = inWords(step);
    return json;
}

int run(const BearingsOptions& options) {
    const auto scale = scaleOf(options.scale);
    if (!scale) {
        return refuse("bearings", scale.error());
    }
    const BearingRange range =
        options.range == "C3..G4" ? BearingRange::C3ToG4 : BearingRange::F3ToC5;
    const auto plan = options.plan == "computed" ? Result<BearingPlan>(computedPlan(*scale, range))
                                                 : publishedPlan(*scale, options.plan);
    if (!plan) {
        return refuse("bearings", plan.error());
    }
    const auto others = publishedPlansFor(scale->temperament);
    if (options.json) {
        Json json{{"schema", 1},
                  {"kind", "bearings"},
                  {"id", nullptr},
                  {"status", "ok"},
                  {"temperament", scale->temperament.id()},
                  {"standard_note", toAscii(scale->reference.note)},
                  {"standard_hz", scale->reference.hz.value()},
                  {"plan", plan->id},
                  {"source", plan->source},
                  {"plans", {"computed"}}};
        for (const PublishedPlan& other : others) {
            json["plans"].push_back(other.id);
        }
        for (const BearingStep& step : plan->steps) {
            json["steps"].push_back(stepJson(step));
        }
        std::printf("%s\n", formatJsonLine(json).c_str());
        return kDone;
    }
    std::printf("%s: %s\n%s\n\n",
                scale->temperament.description().name.c_str(),
                plan->name.c_str(),
                plan->source.c_str());
    int number = 0;
    for (const BearingStep& step : plan->steps) {
        const bool check = step.kind == StepKind::Check;
        number += check ? 0 : 1;
        std::printf(
            "%s%s\n",
            check ? "      "
                  : (std::string(number < 10 ? "  " : " ") + std::to_string(number) + ". ").c_str(),
            inWords(step).c_str());
    }
    for (const PublishedPlan& other : others) {
        if (other.id != plan->id) {
            std::printf("\nalso: --plan %s (%s)",
                        std::string(other.id).c_str(),
                        std::string(other.name).c_str());
        }
    }
    std::printf("%s", others.empty() ? "" : "\n");
    return kDone;
}

} // namespace

void addBearings(CLI::App& app, int& exitCode) {
    CLI::App* command =
        app.add_subcommand("bearings", "A plan by which a temperament is set by ear, step by step");
    auto options = std::make_shared<BearingsOptions>();
    command->add_option("name", options->scale.temperament, "Id or temperament file")->required();
    addScaleOptions(*command, options->scale);
    command->add_option("--plan", options->plan, "computed, or the id of a published plan");
    command
        ->add_option("--range", options->range, "Where a computed plan is laid: F3..C5 or C3..G4")
        ->check(CLI::IsMember({"F3..C5", "C3..G4"}));
    command->add_flag("--json", options->json, "Print JSON");
    addExamples(*command,
                {"bearings kirnberger-3 --a4 415", "bearings vallotti --range C3..G4 --json"});
    command->callback([options, &exitCode] { exitCode = run(*options); });
}

} // namespace quillbench::cli
