#include "app/cli/log_print.hpp"

#include <algorithm>
#include <cstdio>
#include <utility>

namespace quillbench::cli {

namespace {

/// The first and the last exercise by their instants.
std::pair<quillbench::Instant, quillbench::Instant>
practisedBetween(const std::vector<PractiseRecord>& practised) {
    const auto [first, last] =
        std::minmax_element(practised.begin(),
                            practised.end(),
                            [](const PractiseRecord& one, const PractiseRecord& other) {
                                return one.at.milliseconds < other.at.milliseconds;
                            });
    return {first->at, last->at};
}

LogJson exerciseJson(const PractiseRecord& record) {
    return {{"at", toText(record.at)},
            {"at_offset_min", record.at.offsetMinutes},
            {"exercise", record.kind},
            {"interval", record.interval},
            {"note", record.note},
            {"source", record.source},
            {"level", record.level},
            {"answer", record.answer},
            {"left_beats", record.leftBeats ? LogJson(*record.leftBeats) : LogJson()},
            {"left_cents", record.leftCents ? LogJson(*record.leftCents) : LogJson()},
            {"path", record.path},
            {"beat_hz", record.beatHz},
            {"beat_hz_u", record.beatHzU}};
}

} // namespace

LogJson practiseSummary(const LogbookContents& contents) {
    if (contents.practised.empty()) {
        return {};
    }
    const auto [first, last] = practisedBetween(contents.practised);
    return {{"exercises", contents.practised.size()},
            {"first_at", toText(first)},
            {"last_at", toText(last)}};
}

void printPractiseSummary(const LogbookContents& contents) {
    if (contents.practised.empty()) {
        return;
    }
    const auto [first, last] = practisedBetween(contents.practised);
    std::printf("practised: %zu exercises, %s to %s; 'quillbench-cli log show --practise' lists "
                "them\n",
                contents.practised.size(),
                wallClockText(first).c_str(),
                wallClockText(last).c_str());
}

void printPractised(const LogbookContents& contents) {
    std::printf("%-16s  %-14s %-11s %-5s %-8s %6s %-6s %7s %5s %7s %7s  %s\n",
                "done",
                "exercise",
                "interval",
                "key",
                "on",
                "level",
                "answer",
                "beats/s",
                "+-",
                "left/s",
                "cents",
                "path");
    for (const PractiseRecord& record : contents.practised) {
        std::printf("%-16s  %-14s %-11s %-5s %-8s %6.2f %-6s %+7.2f %5.2f",
                    wallClockText(record.at).c_str(),
                    tamed(record.kind).c_str(),
                    tamed(record.interval).c_str(),
                    tamed(record.note).c_str(),
                    tamed(record.source).c_str(),
                    record.level,
                    tamed(record.answer).c_str(),
                    record.beatHz,
                    record.beatHzU);
        if (record.leftBeats && record.leftCents) {
            std::printf(" %+7.2f %+7.2f  %s",
                        *record.leftBeats,
                        *record.leftCents,
                        tamed(record.path).c_str());
        }
        std::printf("\n");
    }
}

LogJson practisedJson(const LogbookContents& contents) {
    LogJson json = headed("practise", contents.practised.empty() ? "nothing" : "ok");
    json["exercises"] = LogJson::array();
    for (const PractiseRecord& record : contents.practised) {
        json["exercises"].push_back(exerciseJson(record));
    }
    return json;
}

} // namespace quillbench::cli
