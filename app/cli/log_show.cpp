#include "app/cli/command.hpp"
#include "app/cli/log_print.hpp"
#include "app/formats/json_fields.hpp"
#include "core/logbook/summary.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cstdio>

namespace quillbench::cli {

LogJson headed(const char* kind, const char* status) {
    return {{"schema", 1}, {"kind", kind}, {"id", nullptr}, {"status", status}};
}

void printLine(const LogJson& json) {
    std::printf("%s\n", formatJsonLine(json).c_str());
}

std::string tamed(const std::string& text) {
    std::string out;
    for (const char c : text) {
        const auto byte = static_cast<unsigned char>(c);
        out += byte < 0x20U || byte == 0x7FU ? ' ' : c;
    }
    return out;
}

std::optional<LogbookContents> looked(const LogOptions& options, int& exitCode) {
    const Result<Logbook> logbook = openLog(options, false);
    if (!logbook) {
        exitCode = complainOfLog(logbook.error());
        return std::nullopt;
    }
    auto contents = logbook->contentsWithoutEvents();
    if (!contents) {
        exitCode = complainOfLog(contents.error());
        return std::nullopt;
    }
    return std::move(contents).value();
}

namespace {

LogJson toJson(const SessionSummary& summary) {
    return {{"session", summary.session.seq},
            {"uid", summary.session.uid},
            {"at", toText(summary.session.at)},
            {"at_offset_min", summary.session.at.offsetMinutes},
            {"instrument", summary.instrument},
            {"name", summary.name},
            {"planner", summary.session.kind},
            {"method", summary.session.method},
            {"settled", summary.settled},
            {"kept", summary.kept},
            {"skipped", summary.skipped},
            {"ended", summary.ended ? LogJson(*summary.ended) : LogJson()}};
}

LogJson toJson(const HoldingReading& one) {
    const ReadingRecord& reading = one.reading;
    return {{"choir", one.string.choir},
            {"course", one.string.course},
            {"note", reading.note},
            {"state", one.state},
            {"at", toText(reading.at)},
            {"at_offset_min", reading.at.offsetMinutes},
            {"target_hz", reading.targetHz},
            {"pitch_hz", reading.pitchHz},
            {"pitch_hz_u", reading.pitchHzU},
            {"deviation_cents", reading.deviationCents},
            {"deviation_cents_u", reading.deviationCentsU},
            {"used_s", reading.usedS},
            {"plucks", reading.plucks},
            {"own_beat_hz", reading.ownBeatHz ? LogJson(*reading.ownBeatHz) : LogJson()},
            {"warnings", reading.warnings},
            {"source", reading.source},
            {"clock_ppm", reading.clockPpm},
            {"clock_ppm_u", reading.clockPpmU},
            {"engine", reading.engine}};
}

const char* endOf(const SessionSummary& summary) {
    return !summary.ended ? "open" : *summary.ended == "done" ? "done" : "left";
}

/// Remarks and climate of a session, or of its instrument without one.
template <typename Record, typename Show>
void eachOf(const std::vector<Record>& table, RowNumber session, Show show) {
    for (const Record& record : table) {
        if (record.session == session) {
            show(record);
        }
    }
}

std::string stringOfRow(const LogbookContents& contents, const std::optional<RowNumber>& string) {
    for (const StringRecord& row : contents.strings) {
        if (string && row.seq == *string) {
            return row.choir + ":" + row.note;
        }
    }
    return {};
}

void printSession(const LogbookContents& contents, const SessionSummary& summary) {
    const RowNumber number = summary.session.seq;
    std::printf("session %lld, %s, %s, %s\n",
                static_cast<long long>(number),
                wallClockText(summary.session.at).c_str(),
                tamed(summary.name).c_str(),
                endOf(summary));
    std::printf("%-6s %-5s %-8s %9s %6s %11s %s\n",
                "choir",
                "key",
                "state",
                "cents",
                "+-",
                "Hz",
                "warnings");
    for (const HoldingReading& one : holdingReadings(contents, number)) {
        std::printf("%-6s %-5s %-8s %+9.2f %6.2f %11.3f %s\n",
                    tamed(one.string.choir).c_str(),
                    tamed(one.reading.note).c_str(),
                    tamed(one.state).c_str(),
                    one.reading.deviationCents,
                    one.reading.deviationCentsU,
                    one.reading.pitchHz,
                    tamed(one.reading.warnings).c_str());
    }
    eachOf(contents.remarks, number, [&](const RemarkRecord& remark) {
        std::printf("%s %s %s\n",
                    wallClockText(remark.at).c_str(),
                    tamed(stringOfRow(contents, remark.string)).c_str(),
                    tamed(remark.text).c_str());
    });
}

LogJson sessionJson(const LogbookContents& contents, const SessionSummary& summary) {
    const RowNumber number = summary.session.seq;
    LogJson json = headed("session", "ok");
    json.update(toJson(summary));
    json["readings"] = LogJson::array();
    for (const HoldingReading& one : holdingReadings(contents, number)) {
        json["readings"].push_back(toJson(one));
    }
    json["remarks"] = LogJson::array();
    eachOf(contents.remarks, number, [&](const RemarkRecord& remark) {
        json["remarks"].push_back({{"at", toText(remark.at)},
                                   {"at_offset_min", remark.at.offsetMinutes},
                                   {"string", stringOfRow(contents, remark.string)},
                                   {"text", remark.text}});
    });
    json["climate"] = LogJson::array();
    eachOf(contents.climates, number, [&](const ClimateRecord& climate) {
        const auto value = [](const std::optional<double>& one) {
            return one ? LogJson(*one) : LogJson();
        };
        json["climate"].push_back({{"at", toText(climate.at)},
                                   {"at_offset_min", climate.at.offsetMinutes},
                                   {"temperature_c", value(climate.temperatureC)},
                                   {"humidity_percent", value(climate.humidityPercent)}});
    });
    return json;
}

} // namespace

int listed(const LogOptions& options) {
    int exitCode = kDone;
    const auto contents = looked(options, exitCode);
    if (!contents) {
        return exitCode;
    }
    const auto sessions = summarise(*contents);
    if (options.json) {
        LogJson json = headed("sessions", "ok");
        json["sessions"] = LogJson::array();
        for (const SessionSummary& summary : sessions) {
            json["sessions"].push_back(toJson(summary));
        }
        json["practised"] = practiseSummary(*contents);
        printLine(json);
        return kDone;
    }
    std::printf("%7s  %-16s  %-5s %7s %5s %7s  %s\n",
                "session",
                "begun",
                "",
                "settled",
                "kept",
                "skipped",
                "instrument");
    for (const SessionSummary& summary : sessions) {
        std::printf("%7lld  %-16s  %-5s %7zu %5zu %7zu  %s\n",
                    static_cast<long long>(summary.session.seq),
                    wallClockText(summary.session.at).c_str(),
                    endOf(summary),
                    summary.settled,
                    summary.kept,
                    summary.skipped,
                    tamed(summary.name).c_str());
    }
    printPractiseSummary(*contents);
    return kDone;
}

namespace {

int showedPractise(const LogOptions& options, const LogbookContents& contents) {
    if (options.json) {
        printLine(practisedJson(contents));
    } else if (contents.practised.empty()) {
        std::fprintf(stderr, "quillbench-cli: log: nothing was practised yet\n");
    } else {
        printPractised(contents);
    }
    return contents.practised.empty() ? kNothingToMeasure : kDone;
}

} // namespace

int showed(const LogOptions& options) {
    int exitCode = kDone;
    const auto contents = looked(options, exitCode);
    if (!contents) {
        return exitCode;
    }
    if (options.practise) {
        return showedPractise(options, *contents);
    }
    const auto sessions = summarise(*contents);
    const auto found =
        options.session == 0 && !sessions.empty()
            ? std::prev(sessions.end())
            : std::find_if(sessions.begin(), sessions.end(), [&](const SessionSummary& summary) {
                  return summary.session.seq == options.session;
              });
    if (found == sessions.end()) {
        return complainOfLog({ErrorCode::BadArgument,
                              sessions.empty()
                                  ? "the logbook holds no session yet"
                                  : "there is no session " + std::to_string(options.session) +
                                        "; 'quillbench-cli log list' lists them",
                              {}});
    }
    if (options.json) {
        printLine(sessionJson(*contents, *found));
    } else {
        printSession(*contents, *found);
    }
    return kDone;
}

int verified(const LogOptions& options) {
    LogOptions quiet = options;
    const auto file = fileOf(quiet);
    const Result<Logbook> logbook =
        file ? Logbook::open({*file, false, {}}) : Result<Logbook>(Unexpected<Error>(file.error()));
    if (!logbook) {
        return complainOfLog(logbook.error());
    }
    const bool sound = logbook->damages().empty();
    if (options.json) {
        LogJson json = headed("verify", sound ? "ok" : "error");
        json["file"] = file->string();
        json["damages"] = logbook->damages();
        if (!sound) {
            json["error"] = logbook->trouble();
        }
        printLine(json);
    } else if (sound) {
        std::printf("%s: every row is as it was kept\n", file->c_str());
    } else {
        for (const std::string& damage : logbook->damages()) {
            std::printf("%s\n", damage.c_str());
        }
    }
    if (!logbook->trouble().empty()) {
        std::fprintf(stderr, "quillbench-cli: log: %s\n", logbook->trouble().c_str());
    }
    return sound ? kDone : kUnreadableInput;
}

} // namespace quillbench::cli
