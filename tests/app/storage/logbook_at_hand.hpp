#pragma once

#include "app/storage/logbook.hpp"
#include "app/storage/row_sum.hpp"
#include "tests/app/storage/sample_entries.hpp"

#include <catch2/catch.hpp>

#include <string>

namespace quillbench::test {

inline Logbook opened(const std::filesystem::path& file, bool toWrite = true) {
    Result<Logbook> logbook = Logbook::open({file, toWrite, {}});
    if (!logbook) {
        FAIL(logbook.error().text);
    }
    return std::move(logbook).value();
}

/// A session with `count` settled strings, a remark, the air, a new string, a calibration and an exercise.
inline void fill(Logbook& logbook, const std::string& uid, int count) {
    REQUIRE(logbook.begin(inventedInstrument(), sessionNamed(uid)));
    for (int place = 0; place < count; ++place) {
        REQUIRE(logbook.keep(uid, entryAt(place)));
    }
    RemarkRecord remark;
    remark.text = "false beat, pin loose";
    remark.at = instantAt(count);
    REQUIRE(logbook.remark(inventedInstrument(), uid, StringName{"8", 3, "C3"}, remark));
    ClimateRecord air;
    air.temperatureC = 19.5;
    air.humidityPercent = 52.0;
    air.at = instantAt(count + 1);
    REQUIRE(logbook.climate(inventedInstrument(), uid, air));
    StringChangeRecord change;
    change.diameterMm = 0.24;
    change.reason = "broken";
    change.at = instantAt(count + 2);
    REQUIRE(logbook.stringChanged(inventedInstrument(), "", StringName{"4", 7, "E3"}, change));
    CalibrationRecord clock;
    clock.device = "USB microphone";
    clock.ppm = -12.5;
    clock.ppmU = 1.5;
    clock.how = "entered by hand";
    clock.at = instantAt(count + 3);
    REQUIRE(logbook.calibrated(clock));
    const PractiseRecord practised = fifthCounted(instantAt(count + 4));
    REQUIRE(logbook.practised(practised));
    REQUIRE(logbook.practised(practised));
}

/// Every row's number and checksum: equal for equal contents.
inline std::string fingerprint(const LogbookContents& contents) {
    std::string text;
    LogbookContents::tables(contents, [&](const auto& table) {
        for (const auto& record : table) {
            text += std::string(std::decay_t<decltype(record)>::kTable) + " " +
                    std::to_string(record.seq) + " " + std::to_string(rowSum(record)) + "\n";
        }
    });
    return text;
}

inline std::string fingerprint(const Logbook& logbook) {
    const Result<LogbookContents> contents = logbook.contents();
    if (!contents) {
        FAIL(contents.error().text);
    }
    return fingerprint(*contents);
}

/// A complaint for people: one line, neither empty nor endless.
inline bool isOneLine(const std::string& text) {
    return !text.empty() && text.size() < 1000 && text.find('\n') == std::string::npos;
}

} // namespace quillbench::test
