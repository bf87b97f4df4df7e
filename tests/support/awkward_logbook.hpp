#pragma once

#include "core/logbook/records.hpp"

#include <cmath>
#include <limits>
#include <string>

namespace quillbench::test {

inline const std::string kHostile =
    "=HYPERLINK(\"x\")\n'quoted', \"doubled\" <b>\xF0\x9F\xAA\xB6</b>\r\n";

/// One row in every table, with awkward values. Invented.
inline LogbookContents awkwardLogbook() {
    LogbookContents contents;
    const Instant at{1790000000123, 825};
    contents.instruments.push_back({1, "test-spinet"});
    contents.descriptions.push_back({1, 1, kHostile, "{\"schema\":1}", at});
    contents.strings.push_back({1, 1, "8", 17, "A3"});
    SessionRecord session;
    session.seq = 1;
    session.uid = "0123456789abcdef0123456789abcdef";
    session.description = 1;
    session.kind = "first-octave";
    session.method = "ear";
    session.inputs = "{\"a4_hz\":415}";
    session.at = at;
    contents.sessions.push_back(session);
    contents.events.push_back({1, 1, 0, 1, "{\"kind\":\"accept\"}", at});
    ReadingRecord reading;
    reading.seq = 1;
    reading.session = 1;
    reading.event = 1;
    reading.string = 1;
    reading.note = "A3";
    reading.pitchHz = std::nextafter(207.5, 300.0);
    reading.deviationCents = -1.0 / 3.0;
    reading.inharmonicity = 2.1e-5;
    reading.inharmonicityU = std::numeric_limits<double>::denorm_min();
    reading.startCents = -0.0;
    reading.ownBeatHz = 1e-300;
    reading.warnings = "hum, false beat";
    reading.settings = "{}";
    reading.at = at;
    contents.readings.push_back(reading);
    contents.steps.push_back({1, 1, 1, 4, 1, 1, "settled", ""});
    contents.steps.push_back({2, 1, 1, 5, std::nullopt, std::nullopt, "skipped", kHostile});
    contents.sessionEnds.push_back({1, 1, "done", at});
    contents.remarks.push_back({1, 1, std::nullopt, 1, kHostile, at});
    contents.climates.push_back({1, 1, 1, std::nullopt, 52.25, at});
    contents.stringChanges.push_back({1, 1, std::nullopt, 0.24, std::nullopt, "-broken", at});
    contents.calibrations.push_back({1, "+USB", -12.5, 0.5, "@hand", at});
    PractiseRecord practised;
    practised.seq = 1;
    practised.kind = "bring-together";
    practised.interval = "unison";
    practised.note = "A3";
    practised.source = "own";
    practised.level = 8.0;
    practised.answer = "set";
    practised.leftBeats = -0.125;
    practised.path = "from-above settled";
    practised.beatHz = -1.0 / 3.0;
    practised.at = at;
    contents.practised.push_back(practised);
    return contents;
}

} // namespace quillbench::test
