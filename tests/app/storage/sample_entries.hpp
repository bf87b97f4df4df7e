#pragma once

#include "app/storage/logbook.hpp"

#include <string>

namespace quillbench::test {

/// An invented instrument, enough of its file for a logbook.
inline InstrumentState inventedInstrument() {
    return {"test-spinet", "Spinet after nobody (invented)", R"({"schema":1,"id":"test-spinet"})"};
}

inline Instant instantAt(int second) {
    return {1790000000000 + second * std::int64_t{1000}, 780};
}

/// A narrow fifth that was counted rightly.
inline PractiseRecord fifthCounted(const Instant& at) {
    PractiseRecord record;
    record.kind = "count";
    record.interval = "fifth";
    record.note = "C3";
    record.source = "virtual";
    record.level = 1.25;
    record.answer = "right";
    record.beatHz = -1.25;
    record.beatHzU = 0.02;
    record.at = at;
    return record;
}

inline SessionRecord sessionNamed(const std::string& uid) {
    SessionRecord session;
    session.uid = uid;
    session.kind = "first-octave";
    session.method = "meter";
    session.inputs = R"({"choir":"8","temperament":"vallotti"})";
    session.engine = "0.1.0";
    session.at = instantAt(0);
    return session;
}

inline ReadingRecord readingOf(int place) {
    ReadingRecord reading;
    reading.note = "A3";
    reading.plucks = 3;
    reading.usedS = 2.4;
    reading.targetHz = 207.5;
    reading.pitchHz = 207.5 + 0.001 * place;
    reading.pitchHzU = 0.004;
    reading.deviationCents = 0.01 * place;
    reading.deviationCentsU = 0.03;
    reading.startCents = 1.0; // whole: stored as an integer
    reading.inharmonicity = 2.1e-5;
    reading.rateHz = 48000.0;
    reading.clockPpmU = 50.0;
    reading.source = "virtual";
    reading.settings = "{}";
    reading.engine = "0.1.0";
    reading.at = instantAt(place);
    return reading;
}

/// The event at `place` of a session, by which the string of that place settles.
inline SessionEntry entryAt(int place) {
    SessionEntry entry;
    entry.event.place = place;
    entry.event.content = R"({"kind":"heard","pluck":)" + std::to_string(place) + "}";
    entry.event.at = instantAt(place);
    ReachedStep reached;
    reached.step.step = place;
    reached.step.state = "settled";
    reached.string = StringName{"8", place % 50, "A3"};
    reached.reading = KeptReading{*reached.string, readingOf(place)};
    entry.steps.push_back(reached);
    return entry;
}

} // namespace quillbench::test
