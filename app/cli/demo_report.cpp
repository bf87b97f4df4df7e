#include "app/cli/demo_report.hpp"

#include "app/formats/json_fields.hpp"
#include "core/workflow/false_beats.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <string>

namespace quillbench::cli {

namespace {

constexpr Phase kJudged[] = {
    Phase::Bearings, Phase::Outward, Phase::Unison, Phase::FourFoot, Phase::SixteenFoot};

const char* nameOf(Phase phase) {
    switch (phase) {
    case Phase::Bearings:
        return "bearings";
    case Phase::Outward:
        return "octaves";
    case Phase::Unison:
        return "unisons";
    case Phase::FourFoot:
        return "4'";
    case Phase::SixteenFoot:
        return "16'";
    case Phase::RunThrough:
    case Phase::WarmUp:
    case Phase::FirstLook:
    case Phase::RoughPass:
    case Phase::Recheck:
        break;
    }
    return "other";
}

struct Spread {
    std::size_t count = 0;
    double median = 0.0;
    double most95 = 0.0;
    double most = 0.0;
};

Spread spreadOf(std::vector<double> sizes) {
    Spread spread;
    spread.count = sizes.size();
    if (sizes.empty()) {
        return spread;
    }
    std::sort(sizes.begin(), sizes.end());
    spread.median = sizes[sizes.size() / 2];
    spread.most95 = sizes[std::min(sizes.size() - 1, sizes.size() * 95 / 100)];
    spread.most = sizes.back();
    return spread;
}

/// What a string is judged by: its place in the bearings, its pair elsewhere.
double errorOf(const JudgedString& one, Phase phase) {
    return std::abs(phase == Phase::Bearings || !one.pairWidth ? one.after.value()
                                                               : one.pairWidth->value());
}

/// As fine tuners leave it: the bearings within half a cent of their places, a pair within a tenth of a beat a second or
/// 0.3 cent, whichever is more, and never beyond half a cent.
bool asWanted(const JudgedString& one, Phase phase) {
    constexpr double kMostCents = 0.5;
    constexpr double kFineCents = 0.3;
    constexpr double kFineBeat = 0.1;
    const double cents = errorOf(one, phase);
    const bool fine = phase == Phase::Bearings || cents <= kFineCents || !one.pairBeat ||
                      std::abs(one.pairBeat->perSecond()) <= kFineBeat;
    return fine && cents <= kMostCents;
}

nlohmann::ordered_json jsonOf(const Spread& cents, const Spread& beats) {
    return {{"strings", cents.count},
            {"median_cents", cents.median},
            {"p95_cents", cents.most95},
            {"max_cents", cents.most},
            {"max_beat_hz", beats.most}};
}

} // namespace

DemoReport::DemoReport(ScriptedSession& scripted, const Instrument& instrument, bool done, int kept)
    : scripted_(scripted),
      instrument_(instrument),
      done_(done),
      kept_(kept),
      strings_(scripted.judge()) {
}

void DemoReport::printTable() const {
    std::printf("%-5s %10s %10s %16s %8s\n", "key", "before", "after", "reading", "plucks");
    const Session& session = scripted_.session();
    for (const JudgedString& one : strings_) {
        const auto kept = session.progress[one.step].kept.value_or(Mark{});
        std::printf("%-5s %+7.1f ct %+7.2f ct %+8.2f ±%.2f ct %8zu\n",
                    toAscii(session.plan->steps[one.step].note).c_str(),
                    one.before.value(),
                    one.after.value(),
                    kept.deviation.value(),
                    kept.uncertainty.value(),
                    one.plucks);
    }
    std::printf(
        "%zu plucks in %.0f s of playing\n", scripted_.plucks(), scripted_.playing().count());
}

void DemoReport::printSummary() const {
    printPhases();
    printStrayed();
    printCourse();
}

/// Whether a judged string or the one it was tuned to beats by itself.
bool DemoReport::falseBeat(const JudgedString& one) const {
    const TuningStep& step = scripted_.session().plan->steps[one.step];
    return scripted_.hasFalseBeat(step.string) ||
           (step.pair && scripted_.hasFalseBeat(step.pair->against));
}

void DemoReport::printPhases() const {
    const Session& session = scripted_.session();
    std::printf("%-9s %8s %6s %9s %9s %9s %12s\n",
                "",
                "strings",
                "fine",
                "median",
                "95 %",
                "worst",
                "worst beat");
    for (const Phase phase : kJudged) {
        std::vector<double> cents;
        std::vector<double> beats;
        std::size_t inside = 0;
        for (const JudgedString& one : strings_) {
            if (session.plan->steps[one.step].phase == phase && !falseBeat(one)) {
                cents.push_back(errorOf(one, phase));
                beats.push_back(one.pairBeat ? std::abs(one.pairBeat->perSecond()) : 0.0);
                inside += asWanted(one, phase) ? 1U : 0U;
            }
        }
        if (const Spread spread = spreadOf(cents); spread.count > 0) {
            std::printf("%-9s %8zu %6zu %6.2f ct %6.2f ct %6.2f ct %9.2f /s\n",
                        nameOf(phase),
                        spread.count,
                        inside,
                        spread.median,
                        spread.most95,
                        spread.most,
                        spreadOf(beats).most);
        }
    }
}

/// What lies further off than it should, and what beats by itself.
void DemoReport::printStrayed() const {
    const Session& session = scripted_.session();
    for (const JudgedString& one : strings_) {
        const TuningStep& step = session.plan->steps[one.step];
        if (errorOf(one, step.phase) > 0.5) {
            std::printf(
                "  %s: %+.2f ct", stringCode(instrument_, step.string).c_str(), one.after.value());
            if (one.pairWidth) {
                std::printf(", pair %+.2f ct", one.pairWidth->value());
            }
            std::printf("%s%s\n",
                        session.progress[one.step].state == StepState::Kept
                            ? ", accepted as near as it could be heard"
                            : "",
                        falseBeat(one) ? ": a false beat" : "");
        }
    }
}

/// What it took, and what went wrong on purpose.
void DemoReport::printCourse() const {
    const Session& session = scripted_.session();
    const std::size_t settled = session.countOf(StepState::Settled);
    const std::size_t accepted = session.countOf(StepState::Kept);
    std::printf(
        "%zu plucks, %.0f min of playing and about %.0f min at the pins; %zu steps settled, %zu "
        "accepted, %zu not done\n",
        scripted_.plucks(),
        scripted_.playing().count() / 60.0,
        scripted_.handTime().count() / 60.0,
        settled,
        accepted,
        session.progress.size() - settled - accepted);
    std::printf("%zu times a pedal, key or mouse button was pressed\n", scripted_.touches());
    std::printf(
        "%zu choirs wanted a second pass; the guard held %zu times; %zu strings slipped and were "
        "reopened; never more than %.1f ct above a target that was worked at\n",
        scripted_.secondPasses(),
        scripted_.guardStops(),
        scripted_.reopened(),
        scripted_.highest().value());
    for (const HeardFalseBeat& one : falseBeatsHeard(scripted_.history().events())) {
        std::printf("%s was heard to beat by itself, %.2f a second, in %zu of %zu plucks%s\n",
                    stringCode(instrument_, one.string).c_str(),
                    one.rate.perSecond(),
                    one.plucks,
                    one.of,
                    scripted_.hasFalseBeat(one.string) ? ": so it was made" : "");
    }
    if (scripted_.wrongPinPlucks()) {
        std::printf("the wrong pin was named after %zu plucks\n", *scripted_.wrongPinPlucks());
    }
    if (const auto whole = scripted_.tookUpWhole()) {
        std::printf("killed with %d events kept, and taken up %s\n",
                    kept_,
                    *whole ? "where it stood" : "elsewhere than it stood");
    }
}

void DemoReport::printJson() const {
    nlohmann::ordered_json out{
        {"schema", 1}, {"kind", "demo"}, {"id", nullptr}, {"status", done_ ? "ok" : "weak"}};
    const Session& session = scripted_.session();
    out["plucks"] = scripted_.plucks();
    out["playing_s"] = scripted_.playing().count();
    out["hand_s"] = scripted_.handTime().count();
    out["guard_stops"] = scripted_.guardStops();
    out["touches"] = scripted_.touches();
    out["reopened"] = scripted_.reopened();
    if (const auto whole = scripted_.tookUpWhole()) {
        out["events_kept_at_kill"] = kept_;
        out["taken_up_where_it_stood"] = *whole;
    }
    out["false_beats"] = nlohmann::ordered_json::array();
    for (const HeardFalseBeat& one : falseBeatsHeard(scripted_.history().events())) {
        out["false_beats"].push_back({{"string", stringCode(instrument_, one.string)},
                                      {"beat_hz", one.rate.perSecond()},
                                      {"plucks", one.plucks},
                                      {"of", one.of},
                                      {"made_so", scripted_.hasFalseBeat(one.string)}});
    }
    out["phases"] = nlohmann::ordered_json::object();
    for (const Phase phase : kJudged) {
        std::vector<double> cents;
        std::vector<double> beats;
        for (const JudgedString& one : strings_) {
            if (session.plan->steps[one.step].phase == phase) {
                cents.push_back(errorOf(one, phase));
                beats.push_back(one.pairBeat ? std::abs(one.pairBeat->perSecond()) : 0.0);
            }
        }
        if (!cents.empty()) {
            out["phases"][nameOf(phase)] = jsonOf(spreadOf(cents), spreadOf(beats));
        }
    }
    out["strings"] = nlohmann::ordered_json::array();
    for (const JudgedString& one : strings_) {
        const TuningStep& step = session.plan->steps[one.step];
        const auto kept = session.progress[one.step].kept.value_or(Mark{});
        nlohmann::ordered_json row{{"note", toAscii(step.note)},
                                   {"choir", instrument_.choirs[step.string.choir].id},
                                   {"before_cents", one.before.value()},
                                   {"after_cents", one.after.value()},
                                   {"reading_cents", kept.deviation.value()},
                                   {"reading_cents_u", kept.uncertainty.value()},
                                   {"plucks", one.plucks}};
        if (one.pairWidth) {
            row["pair_cents"] = one.pairWidth->value();
            row["pair_beat_hz"] = one.pairBeat->perSecond();
            row["pair_cents_range"] = one.pairRange.value();
        }
        out["strings"].push_back(std::move(row));
    }
    std::printf("%s\n", formatJsonLine(out).c_str());
}

} // namespace quillbench::cli
