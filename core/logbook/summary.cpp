#include "core/logbook/summary.hpp"

#include <algorithm>
#include <map>
#include <utility>

namespace quillbench {

namespace {

/// The row of this number; null where there is none. Rows are in order of their numbers.
template <typename Record>
const Record* rowOf(const std::vector<Record>& table, RowNumber number) {
    const auto found = std::lower_bound(
        table.begin(), table.end(), number, [](const Record& row, RowNumber wanted) {
            return row.seq < wanted;
        });
    return found != table.end() && found->seq == number ? &*found : nullptr;
}

/// The newest row of each step, by session and step.
std::map<std::pair<RowNumber, int>, const StepRecord*>
newestSteps(const LogbookContents& contents) {
    std::map<std::pair<RowNumber, int>, const StepRecord*> newest;
    for (const StepRecord& step : contents.steps) {
        newest[{step.session, step.step}] = &step;
    }
    return newest;
}

} // namespace

std::vector<SessionSummary> summarise(const LogbookContents& contents) {
    std::map<RowNumber, SessionSummary> summaries;
    for (const SessionRecord& session : contents.sessions) {
        SessionSummary& summary = summaries[session.seq];
        summary.session = session;
        if (const auto* description = rowOf(contents.descriptions, session.description)) {
            summary.name = description->name;
            if (const auto* instrument = rowOf(contents.instruments, description->instrument)) {
                summary.instrument = instrument->key;
            }
        }
    }
    for (const auto& [place, step] : newestSteps(contents)) {
        const auto found = summaries.find(place.first);
        if (found == summaries.end()) {
            continue;
        }
        found->second.settled += step->state == "settled" ? 1U : 0U;
        found->second.kept += step->state == "kept" ? 1U : 0U;
        found->second.skipped += step->state == "skipped" ? 1U : 0U;
    }
    for (const SessionEndRecord& end : contents.sessionEnds) {
        if (const auto found = summaries.find(end.session); found != summaries.end()) {
            found->second.ended = end.how;
        }
    }
    std::vector<SessionSummary> list;
    list.reserve(summaries.size());
    for (auto& [seq, summary] : summaries) {
        list.push_back(std::move(summary));
    }
    return list;
}

std::vector<HoldingReading> holdingReadings(const LogbookContents& contents, RowNumber session) {
    std::map<RowNumber, HoldingReading> holding; // by the reading's number
    for (const auto& [place, step] : newestSteps(contents)) {
        if (place.first != session || !step->reading) {
            continue;
        }
        const ReadingRecord* reading = rowOf(contents.readings, *step->reading);
        const StringRecord* string =
            reading == nullptr ? nullptr : rowOf(contents.strings, reading->string);
        if (string != nullptr) {
            holding[reading->seq] = HoldingReading{*reading, *string, step->state};
        }
    }
    std::vector<HoldingReading> list;
    list.reserve(holding.size());
    for (auto& [seq, one] : holding) {
        list.push_back(std::move(one));
    }
    return list;
}

} // namespace quillbench
